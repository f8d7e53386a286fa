import { expect, test } from 'vitest'
import { putRight, recordOfReel, shelfView, weigh } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

const weighed = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  const [reel, other] = reels as [string, string]
  const { fact } = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  return { handed, reel, other, fact: fact.id }
}

test('a fact is void, what holds instead is written with it, and the figures follow', async () => {
  const { handed, reel } = await weighed()
  const wrong = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1162 }, accept: true }))
  const reason = 'misread'
  const { recorded } = valueOf(
    await putRight(handed, { fact: wrong.fact.id, reason, mass_g: { value: 1262, u: 0 } }),
  )
  const [first, second] = recorded!.facts
  expect(first).toMatchObject({ kind: 'put-right', voids: wrong.fact.id, instead: second!.id })
  expect(second).toMatchObject({
    kind: 'weighed',
    at: wrong.fact.at,
    weighing: { reading_g: 1262 },
  })
  // Nothing is left of having been surprising.
  expect(second).not.toHaveProperty('accepted_off')
  const { before, now } = recorded!.reels[0]!
  expect(now!.net.value).toBeGreaterThan(before!.net.value)
  const view = valueOf(await shelfView(handed.store))
  expect(view.standing.voided.has(wrong.fact.id)).toBe(true)
})

test('the right figure is tested like any other', async () => {
  const { handed, fact } = await weighed()
  valueOf(
    await weigh(handed, { reel: (await reelOf(handed, fact))!, weighing: { reading_g: 1262 } }),
  )
  const input = { fact, reason: 'misread', mass_g: { value: 900, u: 0 } }
  const surprising = valueOf(await putRight(handed, input))
  expect(surprising.recorded).toBeUndefined()
  expect(surprising.weighed?.surprise.surprising).toBe(true)
  expect(valueOf(await putRight(handed, { ...input, accept: true })).recorded).toBeDefined()
})

const reelOf = async (
  handed: Awaited<ReturnType<typeof bench>>,
  id: string,
): Promise<string | undefined> => {
  const fact = await handed.store.fact(id)
  return fact !== undefined && 'reel' in fact ? fact.reel : undefined
}

test('it was another reel', async () => {
  const { handed, reel, other, fact } = await weighed()
  const { recorded } = valueOf(await putRight(handed, { fact, reason: 'the other', reel: other }))
  expect(recorded!.facts.find(({ kind }) => kind === 'weighed')).toMatchObject({ reel: other })
  const view = valueOf(await shelfView(handed.store))
  expect(view.cards.get(reel)?.lastWeighing).toBeUndefined()
  expect(view.cards.get(other)?.lastWeighing).toBeDefined()
})

test('a put-right that is put right makes the fact hold again, figures and all', async () => {
  const { handed, reel, fact } = await weighed()
  const { now } = valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }))
    .reels[0]!
  const { recorded } = valueOf(await putRight(handed, { fact, reason: 'by mistake' }))
  const undo = recorded!.facts[0]!.id
  expect(codeOf(await putRight(handed, { fact, reason: 'again' }))).toBe('fact_void')
  const back = valueOf(await putRight(handed, { fact: undo, reason: 'it was right' })).recorded!
  expect(back.reels[0]!.now).toEqual(now)
})

test('what makes no sense is refused, and nothing is written', async () => {
  const { handed, reel, fact } = await weighed()
  const { facts } = valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }))
  const moved = facts[0]!.id
  const before = await handed.store.facts()
  const opened = before[0]!.id
  const reason = 'test'
  expect(codeOf(await putRight(handed, { fact: moved, reason, mass_g: { value: 1, u: 0 } }))).toBe(
    'nothing_instead',
  )
  expect(codeOf(await putRight(handed, { fact: opened, reason }))).toBe('opened_needed')
  expect(codeOf(await putRight(handed, { fact: `${fact.slice(0, 8)}?`, reason }))).toBe('id_symbol')
  expect(await handed.store.facts()).toEqual(before)
})
