import { expect, test } from 'vitest'
import { addRow, addWaiting, checkReels, recordDraw, shelfView } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, smallPrint, valueOf } from '../shelf-bench.ts'

const both = (one: string, two: string) => [
  { tool: 0, reel: one },
  { tool: 1, reel: two },
]

test('one reel is not judged for two tools, each as if it had it to itself', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  const [reel, other] = reels as [string, string]
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const print = smallPrint([0, 1])
  const waits = (one: string, two: string) =>
    addWaiting(handed, { print }, { name: `${one} ${two}`, tools: both(one, two) })
  expect(codeOf(await waits(reel, reel))).toBe('reel_twice')
  expect(codeOf(await waits(reel, other))).toBe('')
  valueOf(await recordDraw(handed, { print, reels: both(reel, other) }))
  const view = valueOf(await shelfView(handed.store))
  const check = (one: string, two: string) =>
    checkReels(view, handed, { print, reels: both(one, two) })
  expect(codeOf(check(reel, reel))).toBe('reel_twice')
  expect(codeOf(check(reel, other))).toBe('')
})
