import { expect, test } from 'vitest'
import { type Right, rightsOf } from '../../src/app/putting-right/rights-of.ts'
import {
  addRow,
  measureReel,
  type PutRightInput,
  putRight,
  recordDraw,
  recordOfReel,
  stateOfMake,
  weigh,
} from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, smallPrint, valueOf } from '../shelf-bench.ts'

const told: Readonly<Record<Exclude<Right, 'reel'>, Partial<PutRightInput>>> = {
  nothing: {},
  mass: { mass_g: { value: 3, u: 0 } },
  beside: { extra_g: { value: 1, u: 0 } },
  length: { length_mm: { value: 250, u: 0 } },
  stop: { stoppedAt: { layer: 2 } },
  make: { make: 'Kittiwake PLA' },
  state: { part_used: true },
  colour: { colour: { name: 'tar black' } },
  label: { label_net_g: 750 },
  price: { price: { amount: '21.90', currency: 'EUR' } },
  lot: { lot: 'Q-0417' },
}

/** A reel to which everything happened, and another. */
const busy = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { grossWhenNew: { reading_g: 1262 } })
  const { reels: others } = await addKittiwake(handed, { make: { name: 'Kittiwake PLA' } })
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const [reel, other] = [reels[0]!, others[0]!]
  valueOf(await recordDraw(handed, { print: smallPrint(), reels: [{ reel }] }))
  valueOf(await weigh(handed, { reel, weighing: { reading_g: 1260 }, accept: true }))
  const accept = { accept: true }
  const density = { density_g_per_cm3: { value: 1.24, u: 0.02 } }
  valueOf(await measureReel(handed, reel, density, accept))
  valueOf(
    await recordOfReel(handed, reel, { kind: 'trimmed', mass_g: { value: 2, u: 0.5 } }, accept),
  )
  valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'top shelf' }))
  valueOf(await recordOfReel(handed, reel, { kind: 'ran-dry' }, accept))
  valueOf(await recordOfReel(handed, reel, { kind: 'emptied' }))
  valueOf(await weigh(handed, { reel, empty: true, weighing: { reading_g: 251 }, accept: true }))
  valueOf(await recordOfReel(handed, reel, { kind: 'retired' }))
  const make = 'Kittiwake PLA'
  valueOf(await weigh(handed, { make, empty: true, weighing: { reading_g: 251 }, accept: true }))
  const sheet = { source: 'Kittiwake PLA, May 2026', ...density }
  valueOf(await stateOfMake(handed, make, sheet))
  return { handed, reel, other, facts: await handed.store.facts() }
}

const append = () => Promise.reject(new Error('written'))

/** All kinds of a reel's fact, but for drying. */
const ofReels = [
  'carrier-weighed',
  'drew',
  'emptied',
  'measured',
  'moved',
  'opened',
  'ran-dry',
  'retired',
  'trimmed',
  'weighed',
]

test('whatever is offered of a reel’s fact can be put right of it', async () => {
  const { handed, reel, other, facts } = await busy()
  const own = facts.filter((fact) => 'reel' in fact && fact.reel === reel)
  const kinds = new Set<string>(own.map(({ kind }) => kind))
  expect([...kinds].toSorted()).toEqual(ofReels)
  const ofMakes = facts.filter(
    (fact) => fact.kind === 'data-sheet' || (fact.kind === 'carrier-weighed' && !fact.reel),
  )
  expect(ofMakes).toHaveLength(2)
  const refused: string[] = []
  for (const { id: fact, kind } of [...own, ...ofMakes]) {
    const isOfReel = own.some(({ id }) => id === fact)
    const rights = rightsOf({ kind, isOfReel })
    expect(rights.length, kind).toBeGreaterThan(1)
    for (const right of rights) {
      const instead = right === 'reel' ? { reel: other } : told[right]
      const input = { fact, reason: 'misread', accept: true, ...instead }
      // Each is tried on the ledger as it was.
      const dry = { ...handed, store: { ...handed.store, append } }
      // oxlint-disable-next-line no-await-in-loop -- one after another, in one ledger
      const outcome = await putRight(dry, input).catch(() => undefined)
      if (outcome && codeOf(outcome) === 'nothing_instead') refused.push(`${kind}: ${right}`)
    }
  }
  expect(refused).toEqual([])
})
