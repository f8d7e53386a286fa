import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const app = join(import.meta.dirname, '../../src/app')

/** What may be sent again at once, and why. */
const mayRepeat = new Set([
  'api/use-sending.ts', // the guard itself
  'log-in/log-in-sheet.tsx', // writes nothing down
  'touch/log-out-press.tsx', // out is out
  'slate/match-part.tsx', // a search, which the next one stops
  'slate/copy-with-stops.tsx', // hands a file out
])

test('whatever is posted is guarded against a second press', () => {
  const bare = readdirSync(app, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.tsx?$/.test(file))
    .filter((file) => readFileSync(join(app, file), 'utf8').includes('useMutation('))
  expect(bare.toSorted()).toEqual([...mayRepeat].toSorted())
})
