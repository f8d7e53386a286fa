import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { compileCore } from '../../scripts/build-core.ts'

test('the kernel in src/print is what core/plain-lines.ts compiles to', async () => {
  const file = new URL('../../src/print/plain-lines-code.ts', import.meta.url)
  // Otherwise: npm run core.
  expect(await readFile(file, 'utf8')).toBe(await compileCore())
})
