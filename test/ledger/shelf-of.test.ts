import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { CatalogueRowJson, FactJson, MakeRowJson } from '../../src/contract/index.ts'
import { idLength } from '../../src/contract/index.ts'
import {
  defaultShelfPriors,
  estimateShelf,
  meanOf,
  reelPosterior,
  shelfNames,
} from '../../src/estimate/index.ts'
import { immersionDensity, waterDensity } from '../../src/filament/index.ts'
import { daysOf, shelfOf } from '../../src/ledger/index.ts'
import { celsius, grams, measured } from '../../src/units/index.ts'
import { arbitraryFact, arbitraryRow } from './arbitrary-records.ts'
import {
  drew,
  fact,
  grey,
  gull,
  idSource,
  kitchen,
  nobody,
  noon,
  opened,
  putRight,
  quayside,
  rows,
  weighed,
  white,
} from './bench-records.ts'

const belief = (facts: readonly FactJson[], table: readonly CatalogueRowJson[] = rows) => {
  const { catalogue, facts: found, priors } = shelfOf(table, facts)
  const joint = reelPosterior(estimateShelf(catalogue, found, { priors }), grey)
  const mean = (name: string): number => meanOf(joint, name)
  return { net: mean(shelfNames.net), tare: mean(shelfNames.tare) }
}

/** A make as the estimate takes it. */
const makeOf = (make: Partial<MakeRowJson>, more: readonly CatalogueRowJson[] = []) =>
  shelfOf([{ ...quayside, ...make }, kitchen, gull, ...more], []).catalogue.makes[0]

/** A shelf where only this was measured. */
const only = (rest: object) =>
  shelfOf(rows, [opened(1), fact(2, { kind: 'measured', reel: grey, ...rest } as never)])

const size = (value: number) => ({ value, u: 1 })

test('a moment is days since 1970', () => {
  expect(daysOf('1970-01-02T12:00:00.000Z')).toBe(1.5)
})

test('every kind that tells of mass is handed over, unit by unit', () => {
  const weighing = { scale: kitchen.id, reading_g: 700, u_g: 2, extra_g: { value: 12, u: 1 } }
  const facts = [
    fact(1, {
      kind: 'opened',
      reel: grey,
      make: quayside.id,
      label_net_g: 1000,
      gross_when_new: { scale: kitchen.id, reading_g: 1200 },
    }),
    fact(2, { kind: 'weighed', reel: grey, weighing }),
    fact(3, {
      kind: 'drew',
      reel: grey,
      printer: gull.id,
      length_mm: 5000,
      share: { value: 0.4, u: 0.01 },
    }),
    fact(4, { kind: 'trimmed', reel: grey, length_mm: { value: 200, u: 5 } }),
    fact(5, {
      kind: 'measured',
      reel: grey,
      calipers: { places_mm: [[1.74, 1.76]], error_mm: 0.02 },
    }),
    fact(6, {
      kind: 'data-sheet',
      make: quayside.id,
      source: 'a sheet',
      tare_g: { value: 210, u: 3 },
    }),
    fact(7, { kind: 'ran-dry', reel: grey, tail_mm: { value: 300, u: 20 } }),
    fact(8, { kind: 'emptied', reel: grey }),
    fact(9, {
      kind: 'carrier-weighed',
      make: quayside.id,
      reel: grey,
      weighing: { scale: kitchen.id, reading_g: 201 },
    }),
    fact(10, { kind: 'moved', reel: grey, place: 'box' }),
    fact(11, { kind: 'retired', reel: grey }),
    fact(12, {
      kind: 'dried',
      reel: grey,
      temperature_c: 50,
      remaining_share: { value: 0.001, u: 0 },
    }),
    fact(13, { kind: 'moved', reel: grey, place: 'box', air: 'dry' }),
  ] as const
  const at = (i: number) => ({ id: facts[i]!.id, at: daysOf(facts[i]!.at) })
  const shelf = shelfOf(rows, facts)
  expect(shelf.left).toEqual([])
  expect(shelf.facts).toHaveLength(11)
  expect(shelf.facts).toEqual(
    expect.arrayContaining([
      {
        ...at(0),
        kind: 'opened',
        reel: grey,
        labelNet: 1000,
        grossWhenNew: { scale: kitchen.id, reading: 1200 },
      },
      {
        ...at(1),
        kind: 'weighed',
        reel: grey,
        scale: kitchen.id,
        reading: 700,
        u: 2,
        extra: { value: 12, u: 1 },
      },
      {
        ...at(2),
        kind: 'drew',
        reel: grey,
        printer: gull.id,
        length: 5000,
        share: { value: 0.4, u: 0.01 },
      },
      { ...at(3), kind: 'trimmed', reel: grey, length: { value: 200, u: 5 } },
      {
        ...at(4),
        kind: 'measured',
        reel: grey,
        calipers: {
          places: [[measured(1.74), measured(1.76)]],
          caliper: expect.objectContaining({ step: 0.01, error: 0.02 }),
        },
      },
      { ...at(5), kind: 'data-sheet', make: quayside.id, tare: { value: 210, u: 3 } },
      { ...at(6), kind: 'ran-dry', reel: grey, tail: { value: 300, u: 20 } },
      { ...at(7), kind: 'emptied', reel: grey },
      {
        ...at(8),
        kind: 'carrier-weighed',
        make: quayside.id,
        reel: grey,
        scale: kitchen.id,
        reading: 201,
      },
      { ...at(11), kind: 'dried', reel: grey, remaining: { value: 0.001, u: 0 } },
      { ...at(12), kind: 'moved', reel: grey, air: 'dry' },
    ]),
  )
  expect(() => estimateShelf(shelf.catalogue, shelf.facts)).not.toThrow()
})

test('any facts and rows, however odd, give what the estimate takes', () => {
  const table = fc.array(arbitraryRow, { maxLength: 8 })
  fc.assert(
    fc.property(table, fc.array(arbitraryFact, { maxLength: 12 }), (some, facts) => {
      // Ids that meet: every fact speaks of the same few things.
      const close = facts.map(
        (one): FactJson => ({
          ...one,
          ...('reel' in one && { reel: grey }),
          ...('make' in one && { make: quayside.id }),
          ...('printer' in one && { printer: gull.id }),
        }),
      )
      const shelf = shelfOf([...some, ...rows], close)
      const taken = new Set(shelf.facts.map(({ id }) => id))
      expect(shelf.left.filter(({ id }) => taken.has(id))).toEqual([])
      // Wild figures may be refused as such; what is of ids, order and kinds may not.
      try {
        estimateShelf(shelf.catalogue, shelf.facts, { priors: shelf.priors })
      } catch (error) {
        expect(error).not.toMatchObject({
          code: expect.stringMatching(/unknown_id|id_twice|opened_not_first|material_unknown/),
        })
      }
    }),
  )
})

describe('the opening', () => {
  test('facts dated before it come right after it, in their order', () => {
    const facts = [weighed(3, 800), opened(5), weighed(2, 900), weighed(6, 700)]
    const found = shelfOf(rows, facts).facts
    expect(found.map(({ kind }) => kind)).toEqual(['opened', 'weighed', 'weighed', 'weighed'])
    expect(found.map(({ id }) => id)).toEqual([
      facts[1]!.id,
      facts[2]!.id,
      facts[0]!.id,
      facts[3]!.id,
    ])
    expect(found.map(({ at }) => at - daysOf(noon(5)))).toEqual([0, 0, 0, 1])
  })

  test('without it a reel is left out, and each fact says so', () => {
    const start = opened(1)
    const facts = [start, weighed(2, 900), putRight(3, start.id)]
    const shelf = shelfOf(rows, facts)
    expect(shelf.catalogue.reels).toEqual([])
    expect(shelf.facts).toEqual([])
    expect(shelf.left).toEqual([
      { id: facts[1]!.id, why: 'Its reel was never opened, or its opening was put right.' },
    ])
  })

  test('that holds instead is taken', () => {
    const [wrong, right] = [opened(1), opened(4)]
    const shelf = shelfOf(rows, [wrong, weighed(2, 900), right, putRight(4, wrong.id, right.id)])
    expect(shelf.catalogue.reels).toEqual([{ id: grey, make: quayside.id }])
    expect(shelf.facts.map(({ id }) => id)[0]).toBe(right.id)
    expect(shelf.left).toEqual([])
  })

  test('written down twice, the first holds', () => {
    const [first, second] = [opened(4), opened(1)]
    const shelf = shelfOf(rows, [first, second])
    expect(shelf.facts.map(({ id }) => id)).toEqual([first.id])
    expect(shelf.left).toEqual([{ id: second.id, why: 'This reel was opened already.' }])
  })
})

test('what names a row that is not there is left out with a sentence', () => {
  const draw = { ...drew(2, 100), printer: nobody }
  const weighing = { ...weighed(2, 900), weighing: { scale: nobody, reading_g: 900 } }
  const other = { ...opened(1, white), make: nobody }
  const dependent = weighed(2, 800, white)
  const shelf = shelfOf(rows, [opened(1), draw, weighing, other, dependent])
  expect(shelf.left).toEqual([
    { id: draw.id, why: `There is no printer ${nobody}.` },
    { id: weighing.id, why: `There is no scale ${nobody}.` },
    { id: other.id, why: `There is no make ${nobody}.` },
    { id: dependent.id, why: `There is no make ${nobody}.` },
  ])
  expect(shelf.catalogue.reels).toEqual([{ id: grey, make: quayside.id }])
})

test('a carrier of a reel that was never opened still tells of its make', () => {
  const carrier = fact(1, {
    kind: 'carrier-weighed',
    make: quayside.id,
    reel: white,
    weighing: { scale: kitchen.id, reading_g: 190 },
  } as const)
  const shelf = shelfOf(rows, [opened(1), carrier])
  expect(shelf.left).toEqual([])
  expect(shelf.facts.at(-1)).not.toHaveProperty('reel')
  expect(belief([opened(1), carrier]).tare).toBeCloseTo(190, 0)
})

test('a weighing after the reel was emptied is that of its carrier', () => {
  const before = [opened(1), weighed(2, 700)]
  const after = belief([...before, fact(3, { kind: 'emptied', reel: grey }), weighed(4, 212)])
  expect(Math.abs(after.tare - 212)).toBeLessThan(2)
  expect(after.net).toBeCloseTo(0, 6)
})

describe('materials', () => {
  const id = idSource(3)(idLength.row)
  const own = { kind: 'material', id, changed_at: noon(1), name: 'chalk blend' } as const

  test('of the table, by any of its names', () => {
    expect(makeOf({ material: 'Polylactic acid' })).toMatchObject({ material: 'pla' })
  })
  test("of one's own, with its density", () => {
    expect(
      makeOf({ material: id }, [{ ...own, density_g_per_cm3: { value: 1.41, u: 0.02 } }]),
    ).toMatchObject({
      material: id,
      density: { value: 1.41, u: 0.02 },
    })
  })
  test("of one's own, with the water it takes up", () => {
    expect(makeOf({ material: id }, [{ ...own, water_share: { value: 0.02, u: 0.005 } }])).toEqual({
      id: quayside.id,
      labelNet: 1000,
      waterAtRest: { value: 0.02, u: 0.005 },
    })
  })
  test.each([
    ["of one's own without a density", id, [own]],
    ['of a row that is not there', id, []],
    ['of no table', 'unobtainium', []],
  ] as const)('%s: unknown', (_, material, more) => {
    const make = makeOf({ material }, more)
    expect(make).not.toHaveProperty('material')
    expect(make).not.toHaveProperty('density')
  })
})

test('of catalogue rows with one id the one changed last holds', () => {
  const older = {
    ...gull,
    changed_at: '2025-01-01T00:00:00.000Z',
    feed_factor: { value: 0.9, u: 0.01 },
  }
  const newer = {
    ...gull,
    changed_at: '2027-01-01T00:00:00.000Z',
    feed_factor: { value: 0.98, u: 0.01 },
  }
  expect(shelfOf([newer, gull, older], []).catalogue.printers).toEqual([
    { id: gull.id, feedFactor: { value: 0.98, u: 0.01 } },
  ])
})

describe('the row of priors', () => {
  const row = { kind: 'priors', id: 'priors', changed_at: noon(1) } as const
  test('is taken', () => {
    const { priors, left } = shelfOf([{ ...row, priors: { tail: { value: 200, u: 50 } } }], [])
    expect(priors.tail).toMatchObject({ value: 200, u: 50 })
    expect(left).toEqual([])
  })
  test('is passed over with a sentence where it can not be', () => {
    const { priors, left } = shelfOf([{ ...row, priors: { tale: { value: 200, u: 50 } } }], [])
    expect(priors).toBe(defaultShelfPriors)
    expect(left).toEqual([
      { id: 'priors', why: expect.stringMatching(/no prior "tale".*usual priors/) },
    ])
  })
})

describe('what is measured of filament', () => {
  test('by immersion, with the water at its temperature', () => {
    const { facts } = only({
      immersion: {
        in_air_g: { value: 2.4, u: 0.01 },
        in_water_g: { value: 0.46, u: 0.02 },
        water_c: 21,
      },
    })
    const expected = immersionDensity(
      measured(grams(2.4), 0.01),
      measured(grams(0.46), 0.02),
      waterDensity(measured(celsius(21), 0.5)),
    )
    expect(facts[1]).toMatchObject({ density: expected })
    expect(expected.value).toBeCloseTo(1.2346, 3)
  })
  test('two densities are two facts', () => {
    const { facts } = only({
      density_g_per_cm3: { value: 1.25, u: 0.01 },
      immersion: {
        in_air_g: { value: 2.4, u: 0.01 },
        in_water_g: { value: 0.46, u: 0.02 },
        water_c: 21,
      },
    })
    expect(facts).toHaveLength(3)
  })
  test('no lighter in water, it is left out', () => {
    const { left } = only({
      immersion: { in_air_g: { value: 2.4, u: 0 }, in_water_g: { value: 2.4, u: 0 }, water_c: 21 },
    })
    expect(left[0]?.why).toBe('The piece weighs no less in water than in air.')
  })
  test('a winding within its hub is left out', () => {
    const { left } = only({ winding: { hub_mm: size(90), outer_mm: size(80), width_mm: size(50) } })
    expect(left[0]?.why).toBe('The winding is no wider than its hub.')
  })
  test.each([
    ['density_g_per_cm3', 1.25],
    ['linear_density_g_per_m', 3],
  ])('%s said to be exact has a doubt all the same', (key, value) => {
    const { catalogue, facts } = only({ [key]: { value, u: 0 } })
    expect(() => estimateShelf(catalogue, facts)).not.toThrow()
  })
})

const ruled = (u: number): object => {
  const told = (value: number) => ({ value, u })
  const { facts } = only({
    winding: { hub_mm: told(80), outer_mm: told(90), width_mm: told(60) },
    cut: { length_mm: told(1000), weighing: { scale: kitchen.id, reading_g: 3 } },
  })
  return { ...facts[1], id: '' }
}

test('a winding and a cut length said to be exact were laid along a ruler all the same', () => {
  expect(ruled(0)).toEqual(ruled(1))
  expect(ruled(0.5)).not.toEqual(ruled(1))
})

test.each([
  { kind: 'ran-dry', reel: grey, tail_mm: { value: 300, u: 0 } },
  { kind: 'data-sheet', make: quayside.id, source: 'a', tare_g: { value: 200, u: 0 } },
  { kind: 'data-sheet', make: quayside.id, source: 'a', density_g_per_cm3: { value: 1.2, u: 0 } },
] as const)('$kind with an exact figure can be reckoned with', (rest) => {
  expect(() => belief([opened(1), fact(2, rest)])).not.toThrow()
})

const wound = (label_net_g: number): FactJson =>
  fact(20, {
    kind: 'opened',
    reel: white,
    make: quayside.id,
    label_net_g,
    part_used: true,
  } as never)
const large = wound(3000)
const carrierOf = (n: number, reel?: string) =>
  fact(n, {
    kind: 'carrier-weighed',
    make: quayside.id,
    ...(reel !== undefined && { reel }),
    weighing: { scale: kitchen.id, reading_g: 212 },
  } as never)
const carrierOfLabel = (n: number, label_net_g: number) =>
  Object.assign({}, carrierOf(n), { label_net_g }) as FactJson
const shelfWith = (...facts: readonly FactJson[]) => {
  const { catalogue, facts: found, priors } = shelfOf(rows, facts)
  const joint = reelPosterior(estimateShelf(catalogue, found, { priors }), white)
  return { catalogue, found, tare: meanOf(joint, shelfNames.tare) }
}

describe('reels of one make on carriers of another size', () => {
  test('what a carrier of the make weighs tells nothing of theirs', () => {
    const before = shelfWith(opened(1), large).tare
    expect(shelfWith(opened(1), large, carrierOf(21)).tare).toBe(before)
    expect(shelfWith(opened(1), large, carrierOf(21, grey)).tare).toBe(before)
    // They are larger, and so believed to be heavier.
    expect(before).toBeGreaterThan(shelfWith(opened(1), wound(1200)).tare)
    expect(shelfWith(opened(1), large, carrierOf(21, white)).tare).toBeCloseTo(212, 0)
    // What is nearly of a size shares its carrier.
    expect(shelfWith(opened(1), wound(750), carrierOf(21)).tare).toBeLessThan(230)
  })

  test('a carrier of no reel is of the size that is told of it', () => {
    const tareWith = (label: number): number =>
      shelfWith(opened(1), large, carrierOfLabel(21, label)).tare
    const before = shelfWith(opened(1), large).tare
    const usual = shelfWith(opened(1), large, carrierOfLabel(21, 3000))
    // One carrier of it, not its own: known to how far carriers of one make differ.
    expect(Math.abs(usual.tare - 212)).toBeLessThan(5)
    expect(Math.abs(before - 212)).toBeGreaterThan(50)
    // The nearest size that reels came on, where a carrier can be of it; else one of its own.
    expect(tareWith(2500)).toBe(usual.tare)
    expect(tareWith(1000)).toBe(before)
    expect(tareWith(8000)).toBe(before)
  })

  test('nearest is nearest: the size of the make itself has no first call', () => {
    const [larger, nearly] = [wound(1500), Object.assign({}, opened(2), { label_net_g: 1350 })]
    const before = shelfWith(opened(1), larger).tare
    const tareWith = (first: FactJson, label: number): number =>
      shelfWith(first, larger, carrierOfLabel(21, label)).tare
    expect(Math.abs(tareWith(opened(1), 1350) - 212)).toBeLessThan(5)
    expect(tareWith(opened(1), 1200)).toBe(before)
    // A reel of just that label came, on a carrier of its make's own size.
    expect(tareWith(nearly, 1350)).toBe(shelfWith(nearly, larger).tare)
  })

  test('the first carrier of a size waits for its reels', () => {
    const { catalogue, facts } = shelfOf(rows, [opened(1), carrierOfLabel(21, 3000)])
    const ofSize = catalogue.makes.find(({ labelNet }) => labelNet === 3000)?.id
    expect(ofSize).toBeDefined()
    expect(facts.at(-1)).toMatchObject({ kind: 'carrier-weighed', make: ofSize })
  })

  test('a stated density is of all sizes, a stated tare of its own', () => {
    const sheet = fact(21, {
      kind: 'data-sheet',
      make: quayside.id,
      source: 'its label',
      density_g_per_cm3: { value: 1.31, u: 0.005 },
      tare_g: { value: 190, u: 2 },
    } as never)
    const { found, tare } = shelfWith(opened(1), large, sheet)
    const sheets = found.filter(({ kind }) => kind === 'data-sheet')
    expect(sheets).toHaveLength(2)
    expect(sheets.map((one) => 'tare' in one)).toEqual([true, false])
    expect(tare).toBe(shelfWith(opened(1), large).tare)
  })
})
