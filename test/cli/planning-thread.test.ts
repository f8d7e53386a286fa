import { afterEach, expect, test } from 'vitest'
import { PlanningThread } from '../../src/cli/planning-thread.ts'
import { type MotionOptions, PrintReader, readPrint } from '../../src/print/index.ts'
import { digest } from '../print/fast-reading.ts'
import { printLike } from '../print/print-like.ts'

const threads: PlanningThread[] = []
const thread = (): PlanningThread => {
  const begun = new PlanningThread()
  threads.push(begun)
  return begun
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

test('what goes wrong in the thread is no wait for ever', () => {
  const { clockOf } = thread()
  const clock = clockOf({ family: 'none' } as unknown as MotionOptions)
  clock.move(1, 0, 0, 1, 600)
  expect(() => clock.finish()).toThrow('has failed')
})
