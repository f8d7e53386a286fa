import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { leastBlock } from '../../src/print/clock-tape.ts'
import {
  type Clock,
  ClockTape,
  type MotionOptions,
  PrintReader,
  TapePlayer,
} from '../../src/print/index.ts'
import { digest, readFast } from './fast-reading.ts'
import { printLike } from './print-like.ts'
import { randomProgram } from './random-program.ts'

/** A clock whose tapes are played here, on blocks of so many numbers. */
const tapedClock =
  (numbers: number) =>
  (motion: MotionOptions): Clock => {
    const player = new TapePlayer(motion)
    return new ClockTape({
      block: () => new Float64Array(numbers),
      // As between threads: what is not numbers comes as a copy.
      send: ({ things, ...tape }) => player.play({ ...tape, things: structuredClone(things) }),
      finish: () => player.finish(),
    })
  }

const readTaped = (bytes: Uint8Array, motion: MotionOptions, numbers: number): string => {
  const reader = new PrintReader({ motion }, tapedClock(numbers))
  reader.push(bytes)
  return digest(reader.finish())
}

describe('a clock that is played elsewhere tells the same times to the last bit', () => {
  test.each(['community', 'meta', 'host'] as const)('prints, %s', (family) => {
    for (const seed of [1, 2, 3]) {
      const bytes = printLike(seed, 1500)
      const want = digest(readFast(bytes, { motion: { family } }))
      for (const numbers of [leastBlock, 64, 4096]) {
        expect(readTaped(bytes, { family }, numbers), `${numbers} numbers`).toBe(want)
      }
    }
  })

  test('random programs', () => {
    fc.assert(
      fc.property(randomProgram, fc.integer({ min: leastBlock, max: 40 }), (bytes, numbers) => {
        expect(readTaped(bytes, {}, numbers)).toBe(digest(readFast(bytes, { motion: {} })))
      }),
      { numRuns: 100 },
    )
  })
})
