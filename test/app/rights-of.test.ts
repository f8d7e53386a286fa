import { expect, test } from 'vitest'
import { type Right, rightsOf } from '../../src/app/putting-right/rights-of.ts'
import {
  addRow,
  measureReel,
  type PutRightInput,
  putRight,
  recordDraw,
  recordOfReel,
  weigh,
} from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, smallPrint, valueOf } from '../shelf-bench.ts'

const told: Readonly<Record<Exclude<Right, 'reel'>, Partial<PutRightInput>>> = {
  nothing: {},
  mass: { mass_g: { value: 3, u: 0 } },
  length: { length_mm: { value: 250, u: 0 } },
  layer: { stoppedAt: { layer: 2 } },
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
  return { handed, reel, other, facts: await handed.store.facts() }
}

test('whatever is offered of a reel’s fact can be put right of it', async () => {
  const { handed, reel, other, facts } = await busy()
  const own = facts.filter((fact) => 'reel' in fact && fact.reel === reel)
  const kinds = new Set<string>(own.map(({ kind }) => kind))
  expect(Object.keys(rightsOf).filter((kind) => !kinds.has(kind))).toEqual(['dried'])
  const refused: string[] = []
  for (const { id: fact, kind } of own) {
    for (const right of rightsOf[kind] ?? []) {
      const instead = right === 'reel' ? { reel: other } : told[right]
      const input = { fact, reason: 'misread', accept: true, ...instead }
      // Each is tried on the ledger as it was.
      const append = () => Promise.reject(new Error('written'))
      const dry = { ...handed, store: { ...handed.store, append } }
      // oxlint-disable-next-line no-await-in-loop -- one after another, in one ledger
      const outcome = await putRight(dry, input).catch(() => undefined)
      if (outcome && codeOf(outcome) === 'nothing_instead') refused.push(`${kind}: ${right}`)
    }
  }
  expect(refused).toEqual([])
})
