import { expect, test } from 'vitest'
import type { LedgerRecord } from '../../src/contract/index.ts'
import {
  addReel,
  type HandedIn,
  importRecords,
  putRight,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { openMemoryStore } from '../../src/store/index.ts'
import { addKittiwake, bench, codeOf, interrupted, valueOf } from '../shelf-bench.ts'

const recordsOf = async ({ store }: HandedIn): Promise<readonly LedgerRecord[]> => {
  const records: LedgerRecord[] = []
  for await (const record of store.records()) records.push(record)
  return records
}

/** A bench whose chance is another than that of `bench`. */
const elsewhere = async (): Promise<HandedIn> => {
  const handed = await bench()
  for (let count = 0; count < 1000; count++) handed.randomByte()
  return handed
}

/** Two benches whose first reels have the same id, each opened in its own ledger. */
const clashing = async (): Promise<{ here: HandedIn; there: HandedIn; reel: string }> => {
  const here = await bench()
  const reel = (await addKittiwake(here)).reels[0]!
  const there = await elsewhere()
  const make = { name: 'Quay PETG', maker: 'Tern', material: 'PETG' }
  const its = valueOf(await addReel(there, { make, label_net_g: 750 })).reels[0]!
  valueOf(await weigh(there, { reel: its, weighing: { reading_g: 980 } }))
  const text = JSON.stringify(await recordsOf(there)).replaceAll(`"${its}"`, `"${reel}"`)
  const renamed = { ...(await elsewhere()), store: valueOf(await openMemoryStore()) }
  valueOf(await renamed.store.append(JSON.parse(text) as LedgerRecord[]))
  return { here, there: renamed, reel }
}

test('a reel of another ledger that has the id of another reel here is refused, and why', async () => {
  const { here, there, reel } = await clashing()
  const before = await recordsOf(here)
  const outcome = await importRecords(here.store, await recordsOf(there))
  if (outcome.ok) throw new Error('taken')
  const { code, message } = outcome.refusal
  expect(code).toBe('reel_id_clash')
  expect(message).toContain('Kittiwake PLA, 1000 g on the label (2026-03-01)')
  expect(message).toContain('Tern Quay PETG, 750 g on the label (2026-03-01)')
  expect(await recordsOf(here)).toEqual(before)

  // What the sentence advises works, twice over.
  const free = /free is (\w+)/.exec(message)![1]!
  const other = JSON.stringify(await recordsOf(there)).replaceAll(`"${reel}"`, `"${free}"`)
  const records = JSON.parse(other) as LedgerRecord[]
  expect(valueOf(await importRecords(here.store, records)).written).toBe(records.length)
  expect(valueOf(await importRecords(here.store, records))).toMatchObject({ written: 0 })
  const { cards, shelf } = valueOf(await shelfView(here.store))
  expect([...cards.keys()].toSorted()).toEqual([reel, free].toSorted())
  expect(shelf.left).toEqual([])
})

test('one reel that was opened in both: without its second opening its facts join', async () => {
  const { here, there, reel } = await clashing()
  const records = (await recordsOf(there)).filter(({ kind }) => kind !== 'opened')
  valueOf(await importRecords(here.store, records))
  expect(valueOf(await shelfView(here.store)).cards.get(reel)?.facts).toHaveLength(2)
})

test('a rehearsal is refused alike', async () => {
  const { here, there } = await clashing()
  const rehearsal = valueOf(await openMemoryStore())
  const outcome = await importRecords(here.store, await recordsOf(there), rehearsal)
  expect(codeOf(outcome)).toBe('reel_id_clash')
})

test('so is a reel that came here while it was looked', async () => {
  const { here, there } = await clashing()
  const empty = { ...here, store: valueOf(await openMemoryStore()) }
  const mine = await recordsOf(here)
  const late = interrupted(empty, async () => valueOf(await empty.store.append(mine)))
  expect(codeOf(await importRecords(late.store, await recordsOf(there)))).toBe('reel_id_clash')
})

test('two ledgers that went on from one copy are put together again', async () => {
  const here = await bench()
  const reel = (await addKittiwake(here)).reels[0]!
  const there = { ...(await elsewhere()), store: valueOf(await openMemoryStore()) }
  const copy = await recordsOf(here)
  valueOf(await importRecords(there.store, copy))
  valueOf(await weigh(here, { reel, weighing: { reading_g: 1262 } }))
  const [opened] = await there.store.facts()
  const input = { fact: opened!.id, reason: 'a day late', at: '2026-02-28T12:00:00.000Z' }
  valueOf(await putRight(there, input))
  const records = await recordsOf(there)
  // The opening, put right there, still stands here: it is one reel all the same.
  expect(valueOf(await importRecords(here.store, records)).written).toBe(2)
  expect(valueOf(await importRecords(here.store, records)).written).toBe(0)
  const { cards, shelf } = valueOf(await shelfView(here.store))
  expect(cards.get(reel)?.openedAt).toBe(input.at)
  expect(shelf.left).toEqual([])
})

test('a ledger that has a reel opened twice already may still be taken over whole', async () => {
  const { here, there } = await clashing()
  valueOf(await here.store.append(await recordsOf(there)))
  const records = await recordsOf(here)
  const empty = valueOf(await openMemoryStore())
  expect(valueOf(await importRecords(empty, records)).written).toBe(records.length)
  expect(valueOf(await importRecords(here.store, records)).written).toBe(0)
})
