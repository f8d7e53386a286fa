import { afterEach, expect, test, vi } from 'vitest'
import { joinedApi } from '../../src/app/api/joined-api.ts'
import { isLeftOpen, printToCheck } from '../../src/app/check/print-to-check.ts'
import type { PrintRead } from '../../src/app/check/use-reading.ts'
import type { FileAnswers } from '../../src/app/reading/worker-message.ts'
import { checkWords } from '../../src/app/strings/check-words.ts'
import { readPrint } from '../../src/print/index.ts'
import { valueOf } from '../shelf-bench.ts'

afterEach(() => vi.unstubAllGlobals())

/** Lines that lay a usual bead with 2.85 mm filament, and half of one with 1.75 mm. */
const madeForOther = ['G90', 'M83']
  .concat(
    Array.from(
      { length: 400 },
      (_, k) => `G1 X${20 * (k % 2)} Y${k % 40} Z${0.2 * (1 + Math.floor(k / 40))} E0.251`,
    ),
    '',
  )
  .join('\n')

const readWith = (answers: FileAnswers): PrintRead => ({
  kind: 'read',
  member: 0,
  sha256: 'ab'.repeat(32),
  file: {
    name: 'other.gcode',
    bytes: madeForOther.length,
    container: 'plain',
    answers,
    prints: [
      {
        name: null,
        reading: valueOf(readPrint([new TextEncoder().encode(madeForOther)], answers)),
      },
    ],
  },
})

/** What the server is asked of the shelf for a print that was read with these answers. */
const askedWith = async (answers: FileAnswers): Promise<unknown> => {
  const bodies = new Map<string, unknown>()
  vi.stubGlobal('fetch', (path: string, { body = 'null' }: { readonly body?: string }) => {
    bodies.set(path, JSON.parse(body))
    return Promise.resolve(Response.json({}))
  })
  const print = printToCheck(readWith(answers), { printer: null, firmware: null })
  await joinedApi().checkShelf(print!)
  return bodies.get('/api/checks/shelf')
}

test('a file that looks made for another diameter is judged once it is said which one is in use', async () => {
  // oxlint-disable-next-line unicorn/consistent-function-scoping -- stands beside what it is for
  const reading = (answers: FileAnswers) => readWith(answers).file.prints[0]!.reading
  expect(isLeftOpen(reading({}))).toBe(true)
  for (const answers of [{ diameter_mm: 2.85 }, { madeFor_mm: 1.75 }]) {
    expect(isLeftOpen(reading(answers))).toBe(false)
  }
  expect(await askedWith({ diameter_mm: 2.85 })).toMatchObject({ diameter_mm: 2.85 })
  expect(await askedWith({ madeFor_mm: 1.75 })).not.toHaveProperty('diameter_mm')
})

test('reels that are left out for their diameter are told', () => {
  expect(checkWords.leftOut(1, 1.75)).toBe('One reel of another diameter than 1.75 mm is left out.')
  expect(checkWords.leftOut(31, 2.85)).toBe(
    '31 reels of another diameter than 2.85 mm are left out.',
  )
})
