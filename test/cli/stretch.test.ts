import { expect, test } from 'vitest'
import { drawOfStretch, plannedChanges } from '../../src/cli/stretch.ts'
import { readPrint } from '../../src/print/index.ts'
import { valueOf } from '../shelf-bench.ts'

test.each([
  [1, 'the file plans 1 reel change, so it has 2 parts, not 9.'],
  [2, 'the file plans 2 reel changes, so it has 3 parts, not 9.'],
])('of a file with %i planned changes there is no ninth part', (count, says) => {
  const text = `M83\nG1 Z0.2\nG1 X50 E10\n${'M600\nG1 X0 E10\n'.repeat(count)}`
  const changes = plannedChanges(valueOf(readPrint([new TextEncoder().encode(text)])))
  expect(() => drawOfStretch([], changes, 0, 9)).toThrow(says)
})
