import { expect, test } from 'vitest'
import { makeFactsJson } from '../../src/contract/index.ts'
import { factsOfMake, putRight, shelfView, stateOfMake, weigh } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

const make = 'Kittiwake PLA'

const told = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { grossWhenNew: { reading_g: 1262 } })
  const carrier = valueOf(
    await weigh(handed, { make, empty: true, weighing: { reading_g: 255 }, accept: true }),
  ).fact.id
  const sheet = valueOf(
    await stateOfMake(
      handed,
      make,
      { source: 'sheet of May', tare_g: { value: 250, u: 2 } },
      { at: '2026-01-02T12:00:00.000Z' },
    ),
  ).facts[0]!.id
  // Of a reel, and so on the reel's own sheet.
  const own = { reel: reels[0]!, weighing: { reading_g: 1261 } }
  valueOf(await weigh(handed, { ...own, accept: true }))
  const facts = async (typed = make) =>
    makeFactsJson.parse(valueOf(factsOfMake(valueOf(await shelfView(handed.store)), typed))).facts
  return { handed, carrier, sheet, facts }
}

test('what was told of a make and of no reel is listed in order of time', async () => {
  const { facts, sheet, carrier } = await told()
  const listed = await facts()
  expect(listed.map(({ id }) => id)).toEqual([sheet, carrier])
  expect(listed.map(({ kind }) => kind)).toEqual(['data-sheet', 'carrier-weighed'])
  expect(listed[1]!.what).toMatch(/weighed 255\sg on the/)
})

test('what was put right stays beside what holds, with its reason', async () => {
  const { handed, carrier, facts } = await told()
  const mass_g = { value: 252, u: 0 }
  const right = { fact: carrier, reason: 'misread', mass_g, accept: true }
  const { recorded } = valueOf(await putRight(handed, right))
  const by = recorded!.facts.find(({ kind }) => kind === 'put-right')!.id
  const [, wrong, instead] = await facts()
  expect(wrong).toMatchObject({ id: carrier, voided: { by, reason: 'misread' } })
  expect(instead).toMatchObject({ voided: null })
  expect(instead!.what).toMatch(/weighed 252\sg/)
})

test('what turns out to be of a reel is on that one’s sheet', async () => {
  const { handed, carrier, facts } = await told()
  const { reels } = await addKittiwake(handed, { make: { name: make } })
  const right = { fact: carrier, reason: 'it was its own', reel: reels[0]!, accept: true }
  valueOf(await putRight(handed, right))
  expect((await facts()).filter(({ voided }) => voided === null)).toMatchObject([
    { kind: 'data-sheet' },
  ])
})

test('a make that nobody set up has none', async () => {
  const { handed } = await told()
  const view = valueOf(await shelfView(handed.store))
  expect(codeOf(factsOfMake(view, 'Moonstone PLA'))).toBe('make_unknown')
})
