import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  defaultPriors,
  linearDensityOf,
  netOf,
  type ReelBelief,
  type ReelFacts,
  reckonReel,
  tareOf,
  unknownTareOf,
} from '../../src/estimate/index.ts'
import { kitchenScale, readingVariance, type Scale } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  measured,
  millimetres,
} from '../../src/units/index.ts'

const mm = (value: number, u = 0) => measured(millimetres(value), u)
const g = (value: number, u = 0) => measured(grams(value), u)
const weighing = (reading: number) => ({ reading: grams(reading) })
const emptyCarrier = (reading: number) =>
  ({ kind: 'weighed', weighing: weighing(reading) }) as const

const pla: ReelFacts = {
  material: 'PLA',
  density: measured(gramsPerCubicCentimetre(1.24)),
  nominalDiameter: mm(1.75),
}
const pocketScale: Scale = {
  displayStep: grams(0.01),
  repeatability: grams(0.01),
  gain: 0.001,
  source: { standing: 'common practice, no source', where: 'test' },
}

const believe = (facts: ReelFacts): ReelBelief => {
  const outcome = reckonReel(facts)
  if (!outcome.ok) throw new Error(`${outcome.refusal.code}: ${outcome.refusal.message}`)
  return outcome.value
}
const relativeSpread = (belief: ReelBelief): number => {
  const { value, u } = linearDensityOf(belief)
  return u / value
}
const codeOf = (facts: ReelFacts): string => {
  const outcome = reckonReel(facts)
  return outcome.ok ? 'accepted' : outcome.refusal.code
}

describe('net mass', () => {
  it('is gross less a weighed carrier, with the spread of carriers and the scale', () => {
    const { value, u } = netOf(
      believe({ grossNow: weighing(422), tare: emptyCarrier(250), ...pla }),
    )
    expect(value).toBeCloseTo(172, 2)
    // Two readings, carriers of one make, and the gain on what the two do not share. The prior of
    // the tare, 60 g, takes a little off.
    const own = 2 * readingVariance(kitchenScale) + (kitchenScale.gain * 172) ** 2
    const expected = Math.sqrt(own + defaultPriors.carrierOfOneMake.u ** 2)
    expect(u).toBeGreaterThan(0.99 * expected)
    expect(u).toBeLessThan(expected)
  })

  it('with an unknown carrier is gross less 250 g, give or take 60 g, and says so', () => {
    const belief = believe({ grossNow: weighing(422), ...pla })
    const { value, u } = netOf(belief)
    // That it is not below 0 adds a little.
    expect(value).toBeCloseTo(172, 0)
    expect(u).toBeGreaterThan(59)
    expect(u).toBeLessThan(61)
    expect(belief.assumed).toContainEqual(
      expect.objectContaining({
        id: 'tare',
        value: 250,
        u: 60,
        source: expect.objectContaining({ standing: 'common practice, no source' }),
      }),
    )
  })

  it('does not learn the tare from a new reel better than the overfill allows', () => {
    const belief = believe({
      grossNow: weighing(1250),
      isNew: true,
      labelNet: grams(1000),
      ...pla,
    })
    // By itself the weighing tells the tare to the overfill and the scale; the prior of the carrier
    // joins in, at a sixteenth of the weight.
    const fromLabel = Math.hypot(
      1000 * defaultPriors.overfill.u,
      Math.sqrt(readingVariance(kitchenScale)),
      1250 * kitchenScale.gain,
    )
    const joined = 1 / Math.sqrt(1 / fromLabel ** 2 + 1 / 60 ** 2)
    const tare = tareOf(belief)
    expect(fromLabel).toBeGreaterThan(15)
    expect(tare.u).toBeCloseTo(joined, 2)
    expect(tare.u).toBeGreaterThan(14.5)
  })

  it('carries what a new reel taught of the tare to later weighings', () => {
    const facts = { grossWhenNew: weighing(1250), labelNet: grams(1000), grossNow: weighing(650) }
    const { value, u } = netOf(believe({ ...facts, ...pla }))
    expect(value).toBeCloseTo(404.8, 0)
    expect(u).toBeLessThan(15)
  })

  it('scales the unknown tare with the size of the reel', () => {
    const tareWith = (label: number) =>
      tareOf(believe({ grossNow: weighing(0.4 * label + 150), labelNet: grams(label) }))
    expect(tareWith(250).value).toBeLessThan(tareWith(1000).value)
    expect(tareWith(3000).value).toBeGreaterThan(450)
    expect(tareWith(1500).value).toBeCloseTo(315, 0)
    expect(unknownTareOf(defaultPriors, 50_000)).toEqual({ value: 1200, u: 450 })
    expect(unknownTareOf(defaultPriors, 1)).toEqual({ value: 130, u: 45 })
    // A gross mass no 1 kg reel can have: a larger carrier is assumed.
    expect(tareOf(believe({ grossNow: weighing(2300) })).value).toBeGreaterThan(350)
  })

  it('is never more than the reel was opened with', () => {
    // Gross less 250 g would be 1050 g on a reel of 1 kg: the carrier is heavier than usual.
    const belief = believe({ grossNow: weighing(1300), labelNet: grams(1000), ...pla })
    expect(netOf(belief).value).toBeLessThan(1005)
    expect(netOf(belief).u).toBeLessThan(50)
    expect(tareOf(belief).value).toBeGreaterThan(295)
    expect(netOf(believe({ grossNow: weighing(1300), ...pla })).value).toBeCloseTo(1050, 1)
  })

  it('is known of a new reel from its label alone', () => {
    expect(netOf(believe({ isNew: true, labelNet: grams(750) }))).toEqual({
      value: expect.closeTo(753.75, 1),
      u: expect.closeTo(11.25, 1),
    })
  })

  it('takes off what else is on the scale', () => {
    const on = { ...weighing(452), extra: g(30, 1) }
    expect(netOf(believe({ grossNow: on, tare: emptyCarrier(250) })).value).toBeCloseTo(172, 1)
  })

  it('comes from the winding where there is no scale', () => {
    const winding = { hub: mm(80, 1), outer: mm(190, 2), width: mm(60, 1) }
    const { value, u } = netOf(believe({ winding, ...pla }))
    // Volume π/4·(190² − 80²)·60 mm³ = 1399.6 cm³, the customary packing and 1.24 g/cm³.
    const volume = ((Math.PI / 4) * (190 ** 2 - 80 ** 2) * 60) / 1000
    expect(value).toBeCloseTo(volume * defaultPriors.packing.value * 1.24, -1)
    expect(u / value).toBeGreaterThan(defaultPriors.packing.u / defaultPriors.packing.value)
  })

  it('comes from a stated net mass or length', () => {
    expect(netOf(believe({ statedNet: g(300, 5), ...pla }))).toEqual({
      value: expect.closeTo(300, 2),
      u: expect.closeTo(5, 2),
    })
    const belief = believe({ statedLength: mm(100_000, 1000), ...pla })
    const perMetre = linearDensityOf(belief)
    const net = netOf(belief)
    expect(net.value).toBeCloseTo(100 * perMetre.value, 1)
    expect(net.u).toBeCloseTo(Math.hypot(perMetre.value, 100 * perMetre.u), 1)
  })

  it.each([160, 200, 220, 230])('on a guessed carrier is not below 0 at %d g', (gross) => {
    const belief = believe({ grossNow: weighing(gross) })
    const { value, u } = netOf(belief)
    const tare = tareOf(belief)
    // What the carrier may weigh, 250 ± 60 g, is cut at what the scale showed; counted.
    const random = new SeededRandom(gross)
    const nets: number[] = []
    while (nets.length < 40_000) {
      const net = gross - random.normal(250, 60)
      if (net > 0) nets.push(net)
    }
    const mean = nets.reduce((sum, net) => sum + net, 0) / nets.length
    const spread = Math.sqrt(nets.reduce((sum, net) => sum + (net - mean) ** 2, 0) / nets.length)
    expect(Math.abs(value - mean)).toBeLessThan((4 * spread) / 200 + 0.1)
    expect(u / spread).toBeCloseTo(1, 1)
    expect(value - u).toBeGreaterThan(0)
    expect(value + tare.value).toBeCloseTo(gross, 0)
    expect(belief.notices.map(({ code }) => code)).toEqual(['net_may_be_nothing'])
  })

  it.each([
    [250, '50 %'],
    [340, '7 %'],
    [355, undefined],
  ])('may be nothing on a guessed carrier at %d g: %s', (gross, chance) => {
    const { notices } = believe({ grossNow: weighing(gross) })
    expect(notices.map(({ message }) => /(\d+ %)/.exec(message)?.[1])).toEqual(
      chance === undefined ? [] : [chance],
    )
  })
})

/** A metre cut off and found to weigh 3.1 g, on the scale given or the usual one. */
const cutMetre = (scale?: Scale): ReelFacts => ({
  grossNow: weighing(422),
  ...pla,
  cutLength: {
    length: mm(1000, 1),
    weighing: { reading: grams(3.1), ...(scale && { scale }) },
  },
})

describe('linear density', () => {
  it('is density times nominal cross-section before anything is measured', () => {
    const { value, u } = linearDensityOf(believe({ grossNow: weighing(422), ...pla }))
    expect(value).toBeCloseTo(2.98255, 3)
    expect(u / value).toBeGreaterThan(0.02)
    expect(u / value).toBeLessThan(0.03)
  })

  it('follows a cut metre on a fine scale and hardly one on a coarse scale', () => {
    const fine = linearDensityOf(believe(cutMetre(pocketScale)))
    expect(fine.value).toBeCloseTo(3.09, 2)
    expect(fine.u / fine.value).toBeLessThan(0.009)
    expect(linearDensityOf(believe(cutMetre())).value).toBeLessThan(3.0)
  })

  it('finds the product even when both factors are vague', () => {
    // Expanded once about the prior, 1.5 ± 1 g/cm³, the product would be off by several percent.
    const belief = believe({
      grossNow: weighing(900),
      material: 'pla-metal',
      calipers: { places: [[mm(1.7), mm(1.72)]] },
      linearDensity: measured(gramsPerMetre(8.2), 0.01),
    })
    expect(linearDensityOf(belief).value).toBeCloseTo(8.2, 3)
    expect(linearDensityOf(belief).u).toBeCloseTo(0.01, 3)
  })

  it('takes oval filament for what it is', () => {
    const places = Array.from({ length: 6 }, () => [mm(1.6), mm(1.9)] as const)
    const round = Array.from({ length: 6 }, () => [mm(1.75), mm(1.75)] as const)
    const oval = linearDensityOf(believe({ statedNet: g(1), ...pla, calipers: { places } }))
    const disc = linearDensityOf(believe({ statedNet: g(1), ...pla, calipers: { places: round } }))
    expect(oval.value).toBeLessThan(disc.value)
  })
})

describe('surprise', () => {
  it('is quiet when everything fits', () => {
    const belief = believe({ grossNow: weighing(422), tare: emptyCarrier(231), ...pla })
    expect(belief.notices).toEqual([])
    expect(belief.used.map(({ id }) => id)).toEqual(['weighing_now', 'empty_carrier', 'density'])
    expect(belief.used.every(({ surprising }) => !surprising)).toBe(true)
  })

  it('speaks up when the weighing when new and the label do not fit the carrier', () => {
    // 2.2 lb read off a scale set to pounds and entered as grams would be caught elsewhere; here a
    // 750 g reel is taken for one of 1 kg.
    const belief = believe({
      grossNow: weighing(800),
      grossWhenNew: weighing(1000),
      tare: emptyCarrier(250),
      labelNet: grams(1000),
    })
    const off = Object.fromEntries(belief.used.map((one) => [one.id, one]))
    expect(off['label']?.surprising).toBe(true)
    expect(off['label']?.off).toBeGreaterThan(3)
    expect(belief.notices.map(({ code }) => code)).toContain('surprising')
  })

  it('names a density that is unlike the material', () => {
    const density = measured(gramsPerCubicCentimetre(1.42))
    const belief = believe({ grossNow: weighing(800), material: 'pla', density })
    expect(belief.notices.map(({ code }) => code)).toEqual(['density_unlike_material'])
  })

  it('weighs each observation by what it alone contributes', () => {
    const belief = believe({ grossNow: weighing(422), tare: emptyCarrier(250), ...pla })
    const weights = Object.fromEntries(belief.used.map((one) => [one.id, one.weightOnNet]))
    expect(weights['weighing_now']).toBeGreaterThan(0.999)
    expect(weights['empty_carrier']).toBeGreaterThan(0.99)
    expect(weights['density']).toBeLessThan(1e-6)
  })
})

describe('refusals', () => {
  const cut = { length: mm(1000), weighing: weighing(3) }
  const cases: readonly (readonly [string, ReelFacts, string])[] = [
    ['nothing at all', {}, 'nothing_known'],
    ['a label of a used reel', { labelNet: grams(1000) }, 'nothing_known'],
    ['only a tare', { tare: emptyCarrier(250) }, 'nothing_known'],
    ['only the weighing when new', { grossWhenNew: weighing(1250) }, 'nothing_known'],
    ['new, with nothing else', { isNew: true }, 'nothing_known'],
    [
      'lighter than its carrier',
      { grossNow: weighing(200), tare: emptyCarrier(250) },
      'gross_below_tare',
    ],
    ['lighter than any carrier', { grossNow: weighing(30) }, 'gross_below_tare'],
    ['filled, no density', { grossNow: weighing(422), material: 'pla-cf' }, 'density_needed'],
    [
      'a new reel lighter than its label',
      { grossNow: weighing(422), isNew: true, labelNet: grams(1000) },
      'tare_below_nothing',
    ],
    [
      'a reel that gained mass',
      { grossNow: weighing(422), grossWhenNew: weighing(300), labelNet: grams(1000) },
      'tare_below_nothing',
    ],
    [
      'a reel that gained mass, on a carrier that can be',
      { grossNow: weighing(1400), grossWhenNew: weighing(1250), labelNet: grams(1000) },
      'gained_mass',
    ],
    [
      'a reel that took up a little water',
      { grossNow: weighing(1260), grossWhenNew: weighing(1250), labelNet: grams(1000) },
      'accepted',
    ],
    [
      'three exact facts of which one is wrong',
      {
        statedNet: g(100),
        statedLength: mm(30_000),
        linearDensity: measured(gramsPerMetre(2.98)),
      },
      'facts_contradict',
    ],
    [
      'three exact facts that agree',
      {
        statedNet: g(89.4),
        statedLength: mm(30_000),
        linearDensity: measured(gramsPerMetre(2.98)),
      },
      'accepted',
    ],
    [
      'exact weighings against an exact net mass',
      {
        statedNet: g(100),
        grossNow: { ...weighing(400), u: 0 },
        tare: { kind: 'weighed', weighing: { ...weighing(250), u: 0 }, own: true },
        scale: {
          ...kitchenScale,
          displayStep: grams(0),
          repeatability: grams(0),
          gain: 0,
        },
      },
      'facts_contradict',
    ],
    [
      'filled, with a cut metre',
      { grossNow: weighing(422), material: 'pla-cf', cutLength: cut },
      'accepted',
    ],
    ['no such material', { grossNow: weighing(422), material: 'cheese' }, 'material_unknown'],
    ['a negative weighing', { grossNow: weighing(-1) }, 'impossible_input'],
    ['a weighing of zero', { grossNow: weighing(0) }, 'impossible_input'],
    ['a weighing that is no number', { grossNow: weighing(Number.NaN) }, 'impossible_input'],
    ['a tonne', { grossNow: weighing(1e6) }, 'impossible_input'],
    ['a label of nothing', { grossNow: weighing(422), labelNet: grams(0) }, 'impossible_input'],
    [
      'a density in kg/m³',
      { grossNow: weighing(422), density: measured(gramsPerCubicCentimetre(1240)) },
      'impossible_input',
    ],
    [
      'a diameter in micrometres',
      { grossNow: weighing(422), nominalDiameter: mm(1750) },
      'impossible_input',
    ],
    [
      'a negative uncertainty',
      { grossNow: weighing(422), nominalDiameter: mm(1.75, -0.1) },
      'impossible_input',
    ],
    [
      'calipers without a place',
      { grossNow: weighing(422), calipers: { places: [] } },
      'impossible_input',
    ],
    [
      'a cut length of nothing',
      { grossNow: weighing(422), cutLength: { ...cut, length: mm(0) } },
      'impossible_input',
    ],
    [
      'a packing beyond solid',
      {
        winding: { hub: mm(80), outer: mm(190), width: mm(60) },
        packing: measured(1.2),
      },
      'impossible_input',
    ],
    [
      'a winding below its hub',
      { winding: { hub: mm(190), outer: mm(80), width: mm(60) } },
      'winding_below_hub',
    ],
    [
      'a scale without a gain, for the cut length alone',
      {
        grossNow: weighing(422),
        cutLength: {
          ...cut,
          weighing: { ...weighing(3), scale: { ...kitchenScale, gain: Number.NaN } },
        },
      },
      'impossible_input',
    ],
    ['a stated net mass of nothing', { statedNet: g(0, 5) }, 'accepted'],
    ['a stated net mass below nothing', { statedNet: g(-1, 5) }, 'impossible_input'],
    [
      'a scale with a negative step',
      { grossNow: weighing(422), scale: { ...kitchenScale, displayStep: grams(-1) } },
      'impossible_input',
    ],
  ]
  it.each(cases)('%s', (_name, facts, code) => {
    expect(codeOf(facts)).toBe(code)
  })
})

describe('more knowledge', () => {
  const additions: ReelFacts[] = [
    { tare: emptyCarrier(240) },
    { grossWhenNew: weighing(1251), labelNet: grams(1000) },
    { calipers: { places: [[mm(1.74), mm(1.76)]] } },
    { cutLength: { length: mm(1000, 1), weighing: { reading: grams(3), scale: pocketScale } } },
    { linearDensity: measured(gramsPerMetre(2.97), 0.05) },
    { statedNet: g(180, 30) },
    { winding: { hub: mm(80, 1), outer: mm(120, 2), width: mm(60, 1) } },
  ]

  it('never widens net mass or linear density by more than the shift of a product', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(additions, { minLength: 1 }), (chosen) => {
        let facts: ReelFacts = {
          grossNow: weighing(422),
          material: 'PLA',
          nominalDiameter: mm(1.75),
        }
        let before = believe(facts)
        for (const addition of chosen) {
          facts = Object.assign({}, facts, addition)
          const after = believe(facts)
          // A winding’s error is a share of what it holds: it moves a little with the density.
          expect(netOf(after).u).toBeLessThanOrEqual(netOf(before).u * 1.01)
          // λ = ρ·A is taken about its mean: where the mean moves, u/λ is what can not grow.
          expect(relativeSpread(after)).toBeLessThanOrEqual(relativeSpread(before) * 1.01)
          before = after
        }
      }),
      { seed: 4, numRuns: 100 },
    )
  })
})
