import { afterEach, expect, test } from 'vitest'
import { PlanningThread } from '../../src/cli/planning-thread.ts'
import {
  type ClockMaker,
  type MotionOptions,
  PrintReader,
  type PrintReading,
  readPrint,
} from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'
import { digest } from '../print/fast-reading.ts'
import { printLike } from '../print/print-like.ts'

const threads: PlanningThread[] = []
const thread = (): PlanningThread => {
  const begun = new PlanningThread()
  threads.push(begun)
  return begun
}
const readOne = (clockOf: ClockMaker): Outcome<PrintReading> => {
  const reader = new PrintReader({ motion: {} }, clockOf)
  reader.push(printLike(100, 1))
  return reader.finish()
}
afterEach(async () => {
  await Promise.all(threads.splice(0).map((each) => each.end()))
})

test('prints whose time is planned in a thread are read to the last bit as in one', () => {
  const { clockOf } = thread()
  // More than the blocks that go round hold.
  for (const lines of [100, 60_000, 3000]) {
    const bytes = printLike(lines, lines)
    const reader = new PrintReader({ motion: {} }, clockOf)
    reader.push(bytes)
    expect(digest(reader.finish())).toBe(digest(readPrint([bytes], { motion: {} })))
  }
})

test('what goes wrong in the thread is told at once', () => {
  const { clockOf } = thread()
  readOne(clockOf)
  const clock = clockOf({ family: 'none' } as unknown as MotionOptions)
  clock.move(1, 0, 0, 1, 600)
  const from = performance.now()
  expect(() => clock.finish()).toThrow('has failed')
  expect(performance.now() - from).toBeLessThan(30_000)
})

test('it ends in the middle of a print, as where a person cancels', async () => {
  const { clockOf } = thread()
  const reader = new PrintReader({ motion: {} }, clockOf)
  reader.push(printLike(60_000, 1))
  const from = performance.now()
  await Promise.all(threads.splice(0).map((each) => each.end()))
  expect(performance.now() - from).toBeLessThan(30_000)
  expect(readOne(thread().clockOf).ok).toBe(true)
})
