import { describe, expect, test } from 'vitest'
import { showId } from '../../src/contract/index.ts'
import {
  addRow,
  causeSentence,
  type HandedIn,
  learnt,
  putRight,
  recordDraw,
  reelNow,
  reelStory,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { withSupposed } from '../../src/service/with-supposed.ts'
import { addKittiwake, bench, codeOf, valueOf } from '../shelf-bench.ts'

const weighedOnce = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  const [reel, other] = reels as [string, string]
  valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  return { handed, reel, other }
}

test('a weighing that agrees is recorded, and narrows the carrier', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  const { recorded, surprise } = valueOf(
    await weigh(handed, { reel: reels[0]!, weighing: { reading_g: 1262 } }),
  )
  expect(surprise.surprising).toBe(false)
  const [change] = recorded!.reels
  expect(change!.now!.tare.u).toBeLessThan(change!.before!.tare.u / 2.5)
})

test('a surprising one is not recorded unless it is accepted, and then keeps by how much', async () => {
  const { handed, reel } = await weighedOnce()
  const before = (await handed.store.facts()).length
  const refused = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1345 } }))
  expect(refused.recorded).toBeUndefined()
  expect(refused.surprise.innovation).toBeCloseTo(83, 0)
  expect(refused.surprise.causes[0]?.code).toBe('adapter_left_on')
  expect(await handed.store.facts()).toHaveLength(before)
  const taken = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1345 }, accept: true }))
  const [fact] = taken.recorded!.facts
  // A minute later a little water has come in.
  if (fact?.kind !== 'weighed') throw new Error('no weighing')
  expect(fact.accepted_off).toBe(taken.surprise.off)
  expect(fact.accepted_off).toBeCloseTo(refused.surprise.off, 0)
})

test('the reel that it may have been is named', async () => {
  const { handed, reel, other } = await weighedOnce()
  const printer = valueOf(await addRow(handed, 'printer', { name: 'left' })).rows[0]!.id
  valueOf(await recordDraw(handed, { reels: [{ reel: other }], length_mm: 100_000, printer }))
  valueOf(await weigh(handed, { reel: other, weighing: { reading_g: 962 }, accept: true }))
  const { surprise } = valueOf(await weigh(handed, { reel, weighing: { reading_g: 962 } }))
  expect(
    surprise.causes.some(({ code, reel: which }) => code === 'other_reel' && which === other),
  ).toBe(true)
})

test('a print that stands twice is named, with the fact to put right', async () => {
  const { handed, reel } = await weighedOnce()
  const printer = valueOf(await addRow(handed, 'printer', { name: 'left' })).rows[0]!.id
  const print = { reels: [{ reel }], length_mm: 40_000, printer }
  valueOf(await recordDraw(handed, print))
  const again = valueOf(await recordDraw(handed, print)).facts[0]!.id
  const weighing = { reading_g: 1262 - 119 }
  const { surprise } = valueOf(await weigh(handed, { reel, weighing }))
  const [likeliest] = surprise.causes
  expect(likeliest).toMatchObject({ code: 'print_recorded_twice', fact: again })
  expect(causeSentence(likeliest!, String)).toContain(showId(again))
  valueOf(await putRight(handed, { fact: again, reason: 'recorded twice' }))
  expect(valueOf(await weigh(handed, { reel, weighing })).surprise.surprising).toBe(false)
})

test('figures fewer than the scale shows are a rounded reading', async () => {
  const { handed, reel } = await weighedOnce()
  const coarse = valueOf(
    await weigh(handed, { reel, weighing: { reading_g: 1300, lastPlace_g: 100 } }),
  )
  expect(coarse.surprise.surprising).toBe(false)
  // 100 g over √12, and the scale's own half gram.
  expect(coarse.fact.weighing.u_g).toBeCloseTo(Math.hypot(100 / Math.sqrt(12), 0.5), 6)
})

test('an empty carrier: of one reel, and of a make', async () => {
  const { handed, reel } = await weighedOnce()
  const far = valueOf(await weigh(handed, { reel, empty: true, weighing: { reading_g: 150 } }))
  expect(far.recorded).toBeUndefined()
  const own = valueOf(await weigh(handed, { reel, empty: true, weighing: { reading_g: 257 } }))
  expect(own.recorded?.facts[0]).toMatchObject({ kind: 'carrier-weighed', reel })
  expect(own.recorded?.reels[0]?.now?.tare.u).toBeLessThan(1)
  const any = valueOf(
    await weigh(handed, { make: 'PLA', empty: true, weighing: { reading_g: 255 } }),
  )
  expect(any.fact).not.toHaveProperty('reel')
})

const tareOf = async (handed: HandedIn, reel: string) =>
  reelNow(valueOf(await shelfView(handed.store)), reel).tare

describe('of a make with reels on carriers of several sizes', () => {
  const small = { count: 2, label_net_g: 1000 }
  const twoSizes = async () => {
    const handed = await bench()
    const { reels } = await addKittiwake(handed, small)
    const { reels: larger } = await addKittiwake(handed, {
      make: { name: 'Kittiwake PLA' },
      count: 2,
      label_net_g: 3000,
    })
    return { handed, reel: reels[0]!, large: larger[0]! }
  }
  const weighing = { reading_g: 640 }

  test('the size of an empty carrier is asked for, and counts for its reels alone', async () => {
    const { handed, reel, large } = await twoSizes()
    const carrier = { make: 'Kittiwake PLA', empty: true, weighing }
    const unsaid = await weigh(handed, carrier)
    expect(codeOf(unsaid)).toBe('carrier_size_needed')
    expect(unsaid).toMatchObject({ refusal: { expected: '1000, 3000' } })
    const before = await tareOf(handed, reel)
    const kept = valueOf(await weigh(handed, { ...carrier, label_net_g: 3000 }))
    expect(kept.fact).toMatchObject({ kind: 'carrier-weighed', label_net_g: 3000 })
    expect(kept.recorded).toBeDefined()
    // Nothing is learnt of it but how far makes differ.
    expect((await tareOf(handed, reel)).value).toBe(before.value)
    const after = await tareOf(handed, large)
    expect(Math.abs(after.value - 640)).toBeLessThan(10)
    expect(after.u).toBeLessThan(before.u / 2)
    const far = { ...carrier, label_net_g: 3000, weighing: { reading_g: 212 } }
    expect(valueOf(await weigh(handed, far)).surprise.surprising).toBe(true)
  })

  test('the first carrier of a size is held against what carriers of that size weigh', async () => {
    const handed = await bench()
    await addKittiwake(handed, small)
    const carrier = { make: 'Kittiwake PLA', empty: true, label_net_g: 8000, weighing }
    const { surprise } = valueOf(await weigh(handed, { ...carrier, test: true }))
    expect(surprise.predicted.value).toBeGreaterThan(500)
    expect(surprise.predicted.u).toBeGreaterThan(50)
    const far = { ...carrier, weighing: { reading_g: 5000 } }
    expect(valueOf(await weigh(handed, { ...far, test: true })).surprise.surprising).toBe(true)
  })

  test('another carrier like that of a reel is of its size', async () => {
    const { handed, reel, large } = await twoSizes()
    const before = await tareOf(handed, reel)
    const another = { reel: large, empty: true, another: true, weighing }
    const { fact } = valueOf(await weigh(handed, another))
    expect(fact).toMatchObject({ label_net_g: 3000 })
    expect(fact).not.toHaveProperty('reel')
    // Nothing is learnt of it but how far makes differ.
    expect((await tareOf(handed, reel)).value).toBe(before.value)
    expect(Math.abs((await tareOf(handed, large)).value - 640)).toBeLessThan(10)
    const story = valueOf(reelStory(valueOf(await shelfView(handed.store)), large, {}))
    expect(story.known?.working?.rests.find(({ id }) => id === 'tare')?.on).toBe(
      'an empty carrier of its make, weighed',
    )
  })

  test('what is supposed of another carrier is of the size of its reel', async () => {
    const { handed, reel, large } = await twoSizes()
    const view = valueOf(await shelfView(handed.store))
    const supposed = valueOf(withSupposed(view, handed, [{ reel: large, emptyCarrier: weighing }]))
    expect(Math.abs(reelNow(supposed, large).tare.value - 640)).toBeLessThan(10)
    expect(reelNow(supposed, reel).tare).toEqual(reelNow(view, reel).tare)
  })

  test('where all came on another size than the make’s own, a carrier is of that one', async () => {
    const handed = await bench()
    valueOf(await addRow(handed, 'make', { maker: 'Kittiwake', name: 'PLA', material: 'PLA' }))
    const make = { name: 'Kittiwake PLA' }
    const { reels } = await addKittiwake(handed, { make, count: 2, label_net_g: 3000 })
    const carrier = { make: 'Kittiwake PLA', empty: true, weighing }
    const { fact, recorded } = valueOf(await weigh(handed, carrier))
    expect(fact).toMatchObject({ label_net_g: 3000 })
    expect(recorded).toBeDefined()
    expect(Math.abs((await tareOf(handed, reels[0]!)).value - 640)).toBeLessThan(10)
  })

  test('the sizes that are told are those that reels came on', async () => {
    const labelsOf = async (handed: HandedIn) =>
      learnt(valueOf(await shelfView(handed.store))).makes.map((make) => make.carrier_labels_g)
    const handed = await bench()
    valueOf(await addRow(handed, 'make', { maker: 'Kittiwake', name: 'PLA', material: 'PLA' }))
    expect(await labelsOf(handed)).toEqual([[1000]])
    const make = { name: 'Kittiwake PLA' }
    await addKittiwake(handed, { make, label_net_g: 3000 })
    expect(await labelsOf(handed)).toEqual([[3000]])
    await addKittiwake(handed, { make, label_net_g: 1100 })
    expect(await labelsOf(handed)).toEqual([[1000, 3000]])
  })

  test('of a make without a reel that carrier must have been empty', async () => {
    const { handed } = await twoSizes()
    const told = { make: 'Kittiwake PLA', label_net_g: 3000, weighing }
    const outcome = await weigh(handed, told)
    expect(codeOf(outcome)).toBe('make_not_weighed')
    expect(codeOf(await weigh(handed, { ...told, empty: true }))).toBe('')
  })

  test('a label beside a reel is refused', async () => {
    const { handed, reel } = await twoSizes()
    const told = { reel, empty: true, label_net_g: 3000, weighing }
    expect(codeOf(await weigh(handed, told))).toBe('label_of_reel')
  })
})

test('one scale is taken without a word, of two one must be named', async () => {
  const { handed, reel } = await weighedOnce()
  const fine = { name: 'bench scale', step_g: 0.1, repeatability_g: 0.05, gain: 0.0005 }
  valueOf(await addRow(handed, 'scale', fine))
  const weighing = { reading_g: 1262 }
  expect(codeOf(await weigh(handed, { reel, weighing }))).toBe('scale_needed')
  const named = await weigh(handed, { reel, weighing: { ...weighing, scale: 'BENCH scale' } })
  expect(valueOf(named).scale.scale.name).toBe('bench scale')
  expect(codeOf(await weigh(handed, { reel, weighing: { ...weighing, scale: 'attic' } }))).toBe(
    'scale_unknown',
  )
})

test('a reel is named by its id only, and a slip in it is told', async () => {
  const { handed, reel } = await weighedOnce()
  const weighing = { reading_g: 1262 }
  const typed = `${reel.slice(0, 2)} ${reel.slice(2)}`.toLowerCase()
  expect(codeOf(await weigh(handed, { reel: typed, weighing }))).toBe('')
  expect(codeOf(await weigh(handed, { reel: 'PLA', weighing }))).toBe('reel_by_words')
  const slip = reel.slice(0, 4) + (reel[4] === 'A' ? 'B' : 'A')
  expect(codeOf(await weigh(handed, { reel: slip, weighing }))).toBe('id_check')
})

test('the view is kept until somebody writes', async () => {
  const { handed, reel } = await weighedOnce()
  const view = valueOf(await shelfView(handed.store))
  expect(valueOf(await shelfView(handed.store))).toBe(view)
  valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  expect(valueOf(await shelfView(handed.store))).not.toBe(view)
})

test('where an earlier weighing may be the wrong one, it is named before anything is accepted', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  const reel = reels[0]!
  // 120 g too much on a carrier known to 60 g.
  const { fact } = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1382 } }))
  const seen = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  expect(seen.recorded).toBeUndefined()
  expect(seen.contradicted.map((each) => each.fact)).toEqual([fact.id])
  valueOf(await putRight(handed, { fact: fact.id, reason: 'a hub was on it' }))
  const again = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  expect(again.surprise.surprising).toBe(false)
  expect(again.recorded).toBeDefined()
})

test('a carrier unlike the guess, accepted, leaves the reel what it held', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed)
  const reel = reels[0]!
  const weighing = { reading_g: 1560 }
  const { surprise, recorded } = valueOf(await weigh(handed, { reel, weighing, accept: true }))
  expect(surprise.surprising).toBe(true)
  expect(recorded!.facts[0]).not.toHaveProperty('accepted_off')
  const { now } = recorded!.reels[0]!
  expect(now!.net.value).toBeGreaterThan(950)
  expect(now!.net.value).toBeLessThan(1060)
  expect(now!.tare.value).toBeGreaterThan(420)
})

test('the first weighing of a reel that came part-used puts no more on it than its label', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { partUsed: true })
  const reel = reels[0]!
  const read = (reading_g: number, more: object = {}) =>
    weigh(handed, { reel, weighing: { reading_g }, ...more })
  const much = valueOf(await read(1570))
  expect(much.recorded).toBeUndefined()
  expect(much.surprise.off).toBeGreaterThan(3)
  expect(valueOf(await read(1020)).recorded).toBeDefined()
})

test('accepted, it holds so much, and the next weighing is no surprise for that', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { partUsed: true })
  const reel = reels[0]!
  const first = { reel, weighing: { reading_g: 1570 }, accept: true }
  expect(valueOf(await weigh(handed, first)).recorded).toBeDefined()
  const again = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1569 } }))
  expect(again.surprise.surprising).toBe(false)
})
