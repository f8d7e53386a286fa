import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  condition,
  covarianceOf,
  defaultShelfPriors,
  estimateShelf,
  type LinearForm,
  learnSpreads,
  linearDensityOf,
  marginal,
  netOf,
  normalCdf,
  normalDensity,
  type ReelBelief,
  type ShelfCatalogue,
  type ShelfEstimate,
  type ShelfFact,
  type ShelfPriors,
  type SpreadFactors,
  scaled,
  shelfBelief,
  spreadNames,
  sumOf,
  tareOf,
  withFacts,
  withSpreads,
} from '../../src/estimate/index.ts'
// oxlint-disable-next-line no-restricted-imports -- no door leads to it, and none should
import { withPriors } from '../../src/estimate/shelf-estimate.ts'
import { kitchenScale, readingVariance } from '../../src/filament/index.ts'
import {
  grams,
  gramsPerMetre,
  type Measured,
  measured,
  millimetres,
} from '../../src/units/index.ts'
import {
  chanceAt,
  chanceOfDraw,
  drawWithChance,
  judge,
  judgePrint,
  type MarginModel,
  marginAt,
  marginModel,
  type NextMeasure,
  nextMeasures,
  unknownPrinter,
} from '../../src/verdict/index.ts'
// The twin belongs to the tests, which have no doors.
// oxlint-disable-next-line no-restricted-imports
import { shelfTwin } from '../estimate/shelf-twin.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PETG' }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [
    { id: 'first', make: 'quay' },
    { id: 'second', make: 'quay' },
    { id: 'spare', make: 'quay' },
  ],
}
const on = { printer: 'gull', scale: 'galley' }
const of = (reel: string, ...facts: (object & { kind: ShelfFact['kind'] })[]): ShelfFact[] =>
  facts.map((each, at) => Object.assign({ id: `${reel} ${at}`, at, reel } as ShelfFact, each))
const opened = { kind: 'opened', labelNet: grams(1000) } as const
const drew = (metres: number) =>
  ({ kind: 'drew', printer: 'gull', length: millimetres(1000 * metres) }) as const
const weighed = (reading: number) =>
  ({ kind: 'weighed', scale: 'galley', reading: grams(reading) }) as const
const lambda = { kind: 'measured', linearDensity: measured(gramsPerMetre(2.98), 0.005) } as const

const one = (name: string, weight = 1): LinearForm => ({ terms: { [name]: weight } })
const later = (at: number, fact: object): ShelfFact =>
  Object.assign({ id: `later ${at}`, at } as ShelfFact, fact)

/** Never weighed, and fed five times by a printer nobody has learnt. */
const fedFive = of('first', opened, lambda, drew(60), drew(45), drew(70), drew(30), drew(55))

/** The margin of a draw from the first reel, mm, by the dense twin. */
const marginByTwin = (
  facts: readonly ShelfFact[],
  priors: ShelfPriors,
  { point }: ShelfEstimate,
  draw: number,
): { readonly margin: Measured; readonly net: Measured } => {
  // The twin knows no next print: two unknowns of its own and the tail are added here.
  const twin = shelfTwin(catalogue, facts, priors, point)
  const phi = one('feed factor of gull')
  const x = sumOf(scaled(phi, draw / 1000), one('start allowance of gull', 0.001))
  const known = (form: LinearForm) => marginal(twin.joint, form)
  const meanX = known(x).value + 0.5
  const ofNext = ((draw / 1000) * known(phi).value * priors.feedOfOneDraw.u) ** 2
  const ownX = ofNext + (priors.startOfOneDraw.u ** 2 + 250 ** 2) / 1e6
  const perMetre = twin.linearDensity('first')
  const linear = sumOf(
    twin.net('first'),
    scaled(perMetre, -meanX),
    scaled(x, -known(perMetre).value),
  )
  const together = covarianceOf(twin.joint, perMetre, x)
  const ofProduct = known(perMetre).u ** 2 * (known(x).u ** 2 + ownX) + together ** 2
  const variance = known(linear).u ** 2 + known(perMetre).value ** 2 * ownX + ofProduct
  const net = known(twin.net('first'))
  const mean = net.value - known(perMetre).value * meanX - together
  return { margin: measured(mean, Math.sqrt(variance)), net }
}

/** A reel that was weighed once, and the spreads that its shelf teaches. */
const once = of('first', opened, drew(60), weighed(1060), drew(90))
const taught = learnSpreads(estimateShelf(catalogue, once))
const inDoubt = (): ShelfEstimate => {
  const { priors, standIns } = taught
  return estimateShelf(catalogue, once, { priors, standIns })
}

describe('a verdict from a shelf', () => {
  it('keeps what prints of unknown feed took together with what the next will take', () => {
    const estimate = estimateShelf(catalogue, fedFive)
    const belief = shelfBelief(estimate, 'first', on)
    const model = marginModel(belief, unknownPrinter)
    const draw = 62_000
    const { value, u } = marginAt(model, draw)
    const { margin } = marginByTwin(fedFive, defaultShelfPriors, estimate, draw)
    expect(u / margin.u).toBeCloseTo(1, 8)
    expect(value).toBeCloseTo(margin.value, 6)

    // Taken apart, they would seem to be known better than they are.
    const { between: _, ...apart } = model
    const alone = marginAt(apart, draw).u
    expect(u).toBeGreaterThan(1.07 * alone)
    expect(chanceAt(model, drawWithChance(apart, 0.95))).toBeLessThan(0.94)
  })

  it('says the same by the short way that a ranking takes', () => {
    const belief = shelfBelief(estimateShelf(catalogue, fedFive), 'first', on)
    const draw = [
      { weight: 1, peak_mm: 62_000 },
      { weight: 3, peak_mm: 70_000 },
    ]
    const { chance } = judge({ belief, draw })
    expect(chanceOfDraw(marginModel(belief, unknownPrinter), draw)).toBeCloseTo(chance, 12)
  })

  it('sums chances over all that the spreads may be, as the dense twin has them under each', () => {
    const estimate = inDoubt()
    const model = marginModel(shelfBelief(estimate, 'first', on), unknownPrinter)
    for (const draw of [180_000, 260_000, 275_000, 290_000]) {
      let [lasts, some] = [0, 0]
      for (const { weight, of: priors } of taught.standIns) {
        const { margin, net } = marginByTwin(once, priors, estimate, draw)
        lasts += weight * normalCdf(margin.value / margin.u)
        some += weight * normalCdf(net.value / net.u)
      }
      expect(chanceAt(model, draw)).toBeCloseTo(lasts / some, 7)
    }
  })

  it('tells the chance that counting over the spreads gives, and not that of one normal', () => {
    // Spreads drawn from what is believed of them beforehand, each weighed by its density of the readings.
    const random = new SeededRandom(63)
    const estimate = inDoubt()
    const model = marginModel(shelfBelief(estimate, 'first', on), unknownPrinter)
    const draws = [0.9, 0.8, 0.3, 0.1].map((chance) => drawWithChance(model, chance))
    const counted = draws.map(() => 0)
    let all = 0
    for (let i = 0; i < 6000; i++) {
      const common = random.normal(0, Math.SQRT1_2)
      const factors = Object.fromEntries(
        spreadNames.map((name) => {
          const [middle, doubt] = name === 'tare' ? [1.2, Math.LN2 / 2] : [1.3, Math.LN2]
          return [name, middle * Math.exp(doubt * (common + random.normal(0, Math.SQRT1_2)))]
        }),
      ) as SpreadFactors
      const under = withPriors(estimate, withSpreads(defaultShelfPriors, factors))
      const likely = Math.exp((estimate.shared.misfit - under.shared.misfit) / 2)
      const known = marginModel(shelfBelief(under, 'first', on), unknownPrinter)
      all += likely
      for (const [place, draw] of draws.entries()) counted[place]! += likely * chanceAt(known, draw)
    }
    const { standIns: _, ...ofOneNormal } = model
    const [off, offAsOne] = [model, ofOneNormal].map((said) =>
      draws.map((draw, place) => Math.abs(chanceAt(said, draw) - counted[place]! / all)),
    )
    for (const each of off!) expect(each).toBeLessThan(0.015)
    expect(Math.max(...offAsOne!)).toBeGreaterThan(0.02)
  })

  it('says the same by every way where spreads are in doubt', () => {
    const belief = shelfBelief(inDoubt(), 'first', on)
    const model = marginModel(belief, unknownPrinter)
    const [late, early] = [0.05, 0.95].map((chance) => drawWithChance(model, chance))
    expect(chanceAt(model, late!)).toBeCloseTo(0.05, 9)
    expect(chanceAt(model, early!)).toBeCloseTo(0.95, 9)
    const verdict = judge({ belief, draw: [{ weight: 1, peak_mm: 300_000 }] })
    expect(verdict.chance).toBe(chanceAt(model, 300_000))
    expect(chanceOfDraw(model, [{ weight: 1, peak_mm: 300_000 }])).toBe(verdict.chance)
    expect(verdict.runDry.early!.draw_mm).toBe(early)
    expect(verdict.availableDraw_mm.value).toBe(drawWithChance(model, 0.5))
  })

  it('is close while a weighing of the reel contradicts the shelf', () => {
    const facts = [...fedFive, later(20, { ...weighed(1240), reel: 'first' })]
    const belief = shelfBelief(estimateShelf(catalogue, facts), 'first', on)
    const { verdict, contradicting } = judge({ belief, draw: [{ weight: 1, peak_mm: 1000 }] })
    expect(verdict).toBe('close')
    expect(contradicting.map(({ id }) => id)).toContain('weighing_now')
  })
})

describe('the next measurement for a reel on a shelf', () => {
  const facts = [
    ...of('first', opened, drew(120), drew(90), drew(60)),
    ...of('second', opened, weighed(1240), drew(80), weighed(1000)),
  ]
  const estimate = estimateShelf(catalogue, facts)
  const belief = shelfBelief(estimate, 'first', on)
  const draw = [{ weight: 1, peak_mm: drawWithChance(marginModel(belief, unknownPrinter), 0.7) }]
  const found = nextMeasures({ belief, draw })
  const named = (id: string): NextMeasure => {
    const measure = found.find((each) => each.id === id)
    if (!measure) throw new Error(`${id} is not among ${found.map((each) => each.id).join(', ')}`)
    return measure
  }
  const after = (more: readonly ShelfFact[], start: ShelfEstimate = estimate): ReelBelief =>
    shelfBelief(withFacts(start, more), 'first', on)
  const sdAfter = (more: readonly ShelfFact[]): number =>
    judge({ belief: after(more), draw }).margin.u

  it('is told as for a ledger', () => {
    expect(named('weigh_reel').instruction).toBe('Weigh the reel as it is now.')
    for (const { instruction } of found) expect(instruction).not.toMatch(/give (it|the)/)
  })

  it('leaves the spread that weighing the reel really leaves', () => {
    const reading = grams(netOf(belief).value + tareOf(belief).value)
    const sd = sdAfter([later(20, { ...weighed(reading), reel: 'first' })])
    expect(named('weigh_reel').marginSd / sd).toBeCloseTo(1, 2)
  })

  it('leaves the spread that a weighed length really leaves', () => {
    // As the cut metre is taken to be: a pocket scale, a ruler, and a metre that differs from its reel.
    const { value } = linearDensityOf(belief)
    const own = readingVariance({
      ...kitchenScale,
      displayStep: grams(0.01),
      repeatability: grams(0.01),
    })
    const u = Math.hypot(Math.sqrt(own), value * Math.hypot(0.001, 0.002, 0.007))
    const linearDensity = measured(gramsPerMetre(value), u)
    const sd = sdAfter([later(20, { kind: 'measured', reel: 'first', linearDensity })])
    expect(named('weigh_cut_metre').marginSd / sd).toBeCloseTo(1, 3)
  })

  it('leaves the spread that five places under the calipers really leave', () => {
    const { value } = marginal(belief.joint, belief.area)
    const d = measured(millimetres(Math.sqrt(value / (Math.PI / 4))))
    const calipers = { places: Array.from({ length: 5 }, () => [d, d] as const) }
    const sd = sdAfter([later(20, { kind: 'measured', reel: 'first', calipers })])
    expect(named('calipers').marginSd / sd).toBeCloseTo(1, 2)
  })

  it('leaves the spread that another reel weighed around a print really leaves', () => {
    const before = 1100
    const took = linearDensityOf(belief).value * 20.05
    const trial = [
      later(20, { ...weighed(before), reel: 'spare' }),
      later(21, { ...drew(20), reel: 'spare' }),
      later(22, { ...weighed(before - took), reel: 'spare' }),
    ]
    const measure = named('weigh_around_a_print')
    expect(measure.marginSd / sdAfter(trial)).toBeCloseTo(1, 2)
    expect(measure.instruction).toContain('record both weighings and the print')
    const [learnt, unlearnt] = [after(trial), belief].map(
      ({ joint, nextPrint }) => marginal(joint, nextPrint!.meanFeedFactor).u,
    )
    expect(learnt).toBeLessThan(unlearnt!)
  })

  it('is the carrier where the reel was weighed and its make’s carriers never were', () => {
    const start = estimateShelf(catalogue, of('first', { kind: 'opened' }, weighed(420)))
    const reel = shelfBelief(start, 'first', on)
    const [best] = nextMeasures({ belief: reel, draw: [{ weight: 1, peak_mm: 50_000 }] })
    expect(best?.id).toBe('weigh_empty_carrier')
    const carrier = { kind: 'carrier-weighed', make: 'quay', scale: 'galley' }
    const reading = grams(tareOf(reel).value)
    const then = after([later(20, { ...carrier, reading })], start)
    const { u } = judge({ belief: then, draw: [{ weight: 1, peak_mm: 50_000 }] }).margin
    expect(best!.marginSd / u).toBeCloseTo(1, 2)
    const again = nextMeasures({ belief: then, draw: [{ weight: 1, peak_mm: 50_000 }] })
    expect(again.map(({ id }) => id)).not.toContain('weigh_reel')
  })

  it('settles as often as it says, counted over what the scale may show', () => {
    const random = new SeededRandom(61)
    const load = netOf(belief).value + tareOf(belief).value
    const shown = marginal(belief.joint, sumOf(belief.tare, belief.net, scaled(belief.gain, load)))
    const sd = Math.hypot(shown.u, Math.sqrt(readingVariance(kitchenScale)))
    const trials = 400
    let settled = 0
    for (let i = 0; i < trials; i++) {
      const reading = random.normal(shown.value, sd)
      const then = after([later(20, { ...weighed(reading), reel: 'first' })])
      const chance = chanceOfDraw(marginModel(then, unknownPrinter), draw)
      if (chance >= 0.95 || chance <= 0.05) settled++
    }
    const p = named('weigh_reel').settles
    expect(p).toBeGreaterThan(0.1)
    expect(Math.abs(settled / trials - p)).toBeLessThan(
      4 * Math.sqrt((p * (1 - p)) / trials) + 0.01,
    )
  })
})

describe('the next measurement where spreads are in doubt', () => {
  it('settles as often as it says, counted over spreads, reels and readings', () => {
    const estimate = inDoubt()
    const belief = shelfBelief(estimate, 'first', on)
    const peak_mm = drawWithChance(marginModel(belief, unknownPrinter), 0.7)
    const found = nextMeasures({ belief, draw: [{ weight: 1, peak_mm }], confidence: 0.85 })
    const { settles: p } = found.find(({ id }) => id === 'weigh_reel')!
    const load = netOf(belief).value + tareOf(belief).value
    const gross = sumOf(belief.tare, belief.net, scaled(belief.gain, load))
    const variance = readingVariance(belief.scale)
    const random = new SeededRandom(64)
    const trials = 3000
    let settled = 0
    for (let i = 0; i < trials; i++) {
      // One of the stand-ins is the right one, and what the scale shows is drawn under it.
      let left = random.uniform()
      const right = belief.standIns!.find(({ weight }) => (left -= weight) < 0)!
      const shown = marginal(right.of, gross)
      const value = random.normal(shown.value, Math.hypot(shown.u, Math.sqrt(variance)))
      const then = belief.standIns!.map(({ weight, of: joint }) => {
        const seen = condition(joint, { form: gross, value, variance })
        const density = normalDensity(seen.innovation / seen.innovationSd) / seen.innovationSd
        return { weight: weight * density, of: seen.joint }
      })
      const after = marginModel({ ...belief, standIns: then }, unknownPrinter)
      const chance = chanceAt(after, peak_mm)
      if (chance >= 0.85 || chance <= 0.15) settled++
    }
    expect(p).toBeGreaterThan(0.1)
    expect(p).toBeLessThan(0.9)
    expect(Math.abs(settled / trials - p)).toBeLessThan(
      3 * Math.sqrt((p * (1 - p)) / trials) + 0.01,
    )
  })
})

describe('two tools on one printer', () => {
  it('last together more often than the product of their chances says', () => {
    // Both reels well known, the printer not: what they have in common is its feed factor.
    const facts = [
      ...of('first', opened, lambda, drew(60), weighed(1060)),
      ...of('second', opened, lambda, drew(150), weighed(790)),
    ]
    const estimate = estimateShelf(catalogue, facts)
    const random = new SeededRandom(62)
    const models = ['first', 'second'].map((reel): MarginModel => {
      const belief = shelfBelief(estimate, reel, on)
      return marginModel(belief, unknownPrinter)
    })
    const draws = models.map((model) => drawWithChance(model, 0.9))
    const print = judgePrint(
      ['first', 'second'].map((reel, tool) => ({
        tool,
        belief: shelfBelief(estimate, reel, on),
        draw: [{ weight: 1, peak_mm: draws[tool]! }],
      })),
    )
    expect(print.chance).toBeCloseTo(0.81, 6)

    // Both reels, make, printer and scale in one joint: the dense twin's, with the print's own parts.
    const twin = shelfTwin(catalogue, facts, defaultShelfPriors, estimate.point)
    const forms = ['first', 'second'].flatMap((reel) => [twin.net(reel), twin.linearDensity(reel)])
    forms.push({ terms: { 'feed factor of gull': 1 } }, { terms: { 'start allowance of gull': 1 } })
    const means = forms.map((form) => marginal(twin.joint, form).value)
    const root = cholesky(forms.map((a) => forms.map((b) => covarianceOf(twin.joint, a, b))))
    const trials = 100_000
    let both = 0
    for (let i = 0; i < trials; i++) {
      const z = forms.map(() => random.normal())
      const x = means.map((mean, row) =>
        root[row]!.reduce((sum, entry, column) => sum + entry * z[column]!, mean),
      )
      const ownFeed = random.normal(0, 0.003)
      const last = draws.every((draw, tool) => {
        const fed = (x[4]! + ownFeed) * draw + x[5]! + random.normal(0, 30)
        return x[2 * tool]! - (x[2 * tool + 1]! * (fed + random.normal(500, 250))) / 1000 > 0
      })
      if (last) both++
    }
    const counted = both / trials
    expect(counted).toBeGreaterThan(print.chance + 0.01)
    expect(counted).toBeLessThan(0.9)
  })
})

/** Lower triangle whose product with its transpose is the matrix; zero where a row adds nothing. */
const cholesky = (matrix: readonly (readonly number[])[]): readonly (readonly number[])[] => {
  const root: number[][] = matrix.map((row) => row.map(() => 0))
  for (const [i, row] of matrix.entries()) {
    for (let j = 0; j <= i; j++) {
      let rest = row[j]!
      for (let k = 0; k < j; k++) rest -= root[i]![k]! * root[j]![k]!
      if (i === j) root[i]![i] = Math.sqrt(Math.max(0, rest))
      else root[i]![j] = root[j]![j]! > 0 ? rest / root[j]![j]! : 0
    }
  }
  return root
}
