import {
  condition,
  type JointNormal,
  jointNormal,
  type LinearForm,
  makePrior,
  printerPrior,
  type ShelfCatalogue,
  type ShelfFact,
  type ShelfPoint,
  type ShelfPriors,
  type ShelfWeighing,
  scaled,
  sumOf,
} from '../../src/estimate/index.ts'
import { benchCaliper, crossSectionOfPlaces, readingVariance } from '../../src/filament/index.ts'
import { grams, type Measured, measured } from '../../src/units/index.ts'

/** The whole shelf as one dense joint normal, and how to say a reel's quantities in it. */
export interface ShelfTwin {
  readonly joint: JointNormal
  readonly tare: (reel: string) => LinearForm
  /** Net after all facts, or after those up to a time. */
  readonly net: (reel: string, at?: number) => LinearForm
  readonly linearDensity: (reel: string) => LinearForm
  /** −2 ln of the joint density of all rows, one after the other, less rows × ln 2π. */
  readonly misfit: number
}

const one = (name: string, weight = 1): LinearForm => ({ terms: { [name]: weight } })
const fixed = (constant: number): LinearForm => ({ terms: {}, constant })
const minus = (a: LinearForm, b: LinearForm): LinearForm => sumOf(a, scaled(b, -1))

/**
 * The slow twin of `estimateShelf`, written for reading: every unknown has a name and its own row,
 * one for the error of each draw and each trimming among them, and every reading conditions the
 * whole joint. Nothing is eliminated. For shelves of some ten facts.
 */
export const shelfTwin = (
  { makes, printers, scales, reels }: ShelfCatalogue,
  facts: readonly ShelfFact[],
  priors: ShelfPriors,
  point: ShelfPoint,
): ShelfTwin => {
  const ordered = facts.toSorted((a, b) => a.at - b.at)
  const unknowns: Record<string, Measured> = {}

  const ofMake = new Map(makes.map((make) => [make.id, makePrior(make, priors)]))
  for (const [id, { tare, overfill, density, areaSpread }] of ofMake) {
    unknowns[`mean tare of ${id}`] = tare
    unknowns[`mean overfill of ${id}`] = overfill
    unknowns[`mean density of ${id}`] = density
    unknowns[`area of ${id} off nominal`] = measured(0, areaSpread)
  }
  for (const printer of printers) {
    const { feedFactor, startAllowance } = printerPrior(printer, priors)
    unknowns[`feed factor of ${printer.id}`] = feedFactor
    unknowns[`start allowance of ${printer.id}`] = startAllowance
  }
  const overStated = priors.scaleOverStated.value
  for (const { id, scale } of scales) {
    unknowns[`gain of ${id}`] = measured(0, scale.gain * overStated)
  }

  const makeOf = new Map(reels.map(({ id, make }) => [id, make]))
  const pointOf = new Map(reels.map(({ id }, i) => [id, point.linearDensity[i]!]))
  const tare = (reel: string): LinearForm =>
    sumOf(one(`mean tare of ${makeOf.get(reel)}`), one(`carrier of ${reel} off its make`))
  const linearDensity = (reel: string): LinearForm => {
    const make = makeOf.get(reel)!
    const { nominalArea, density } = ofMake.get(make)!
    return sumOf(
      one(`mean density of ${make}`, nominalArea),
      one(`area of ${make} off nominal`, nominalArea * density.value),
      one(`linear density of ${reel} off its make`),
    )
  }

  // Every change of the net, in order of time.
  const changes: { reel: string; at: number; form: LinearForm }[] = []
  const netUpTo = (reel: string, until: (at: number) => boolean): LinearForm =>
    sumOf(
      one(`opening of ${reel}`),
      ...changes.filter((c) => c.reel === reel && until(c.at)).map(({ form }) => form),
    )
  const net = (reel: string, at = Infinity): LinearForm => netUpTo(reel, (when) => when <= at)

  const rows: { form: LinearForm; value: number; variance: number }[] = []
  const weigh = (load: LinearForm, seen: ShelfWeighing, spread = 0): void => {
    const { scale } = scales.find(({ id }) => id === seen.scale)!
    const repeatability = grams(scale.repeatability * overStated)
    const own = seen.u === undefined ? readingVariance({ ...scale, repeatability }) : seen.u ** 2
    rows.push({
      form: sumOf(load, one(`gain of ${seen.scale}`, seen.reading)),
      value: seen.reading - (seen.extra?.value ?? 0),
      variance: own + (seen.extra?.u ?? 0) ** 2 + spread ** 2,
    })
  }
  const see = (form: LinearForm, { value, u }: Measured): void => {
    rows.push({ form, value, variance: u ** 2 })
  }

  for (const { id, make } of reels) {
    const { nominalArea, density } = ofMake.get(make)!
    const opened = ordered.find((fact) => fact.kind === 'opened' && fact.reel === id)
    const label =
      opened?.kind === 'opened' && opened.partUsed !== true ? opened.labelNet : undefined
    unknowns[`carrier of ${id} off its make`] = measured(0, priors.carrierOfOneMake.u)
    unknowns[`linear density of ${id} off its make`] = measured(
      0,
      nominalArea * density.value * priors.reelAboutMake.u,
    )
    if (label === undefined) {
      unknowns[`opening of ${id}`] = measured(
        priors.openingWithoutLabel.value,
        priors.openingWithoutLabel.u,
      )
    } else {
      // n₀ = label·(mean overfill + the reel's own): an empty opening and the first change.
      unknowns[`opening of ${id}`] = measured(0, 0)
      unknowns[`overfill of ${id} off its make`] = measured(0, priors.overfillOfOneMake.u)
      changes.push({
        reel: id,
        at: -Infinity,
        form: sumOf(
          one(`mean overfill of ${make}`, label),
          one(`overfill of ${id} off its make`, label),
        ),
      })
    }
  }

  for (const fact of ordered) {
    switch (fact.kind) {
      case 'opened':
        if (fact.grossWhenNew) weigh(sumOf(tare(fact.reel), net(fact.reel)), fact.grossWhenNew)
        break
      case 'weighed':
        weigh(sumOf(tare(fact.reel), net(fact.reel)), fact)
        break
      case 'carrier-weighed':
        if (fact.reel !== undefined) weigh(tare(fact.reel), fact)
        else weigh(one(`mean tare of ${fact.make}`), fact, priors.carrierOfOneMake.u)
        break
      case 'drew': {
        // λ·(φ·L + s), each product to first order about the point
        const p = printers.findIndex(({ id }) => id === fact.printer)
        const phi = point.core[2 * p]!
        const start = point.core[2 * p + 1]!
        const there = pointOf.get(fact.reel)!
        const asked = fact.length / 1000
        const metres = asked * (fact.share?.value ?? 1)
        unknowns[`error of ${fact.id}`] = measured(
          0,
          there *
            Math.hypot(
              phi * metres * priors.feedOfOneDraw.u,
              priors.startOfOneDraw.u / 1000,
              phi * asked * (fact.share?.u ?? 0),
            ),
        )
        const took = sumOf(
          scaled(linearDensity(fact.reel), phi * metres + start / 1000),
          scaled(minus(one(`feed factor of ${fact.printer}`), fixed(phi)), there * metres),
          scaled(minus(one(`start allowance of ${fact.printer}`), fixed(start)), there / 1000),
          one(`error of ${fact.id}`),
        )
        changes.push({ reel: fact.reel, at: fact.at, form: scaled(took, -1) })
        break
      }
      case 'trimmed': {
        if (fact.mass) {
          unknowns[`mass of ${fact.id}`] = fact.mass
          changes.push({ reel: fact.reel, at: fact.at, form: one(`mass of ${fact.id}`, -1) })
        }
        if (fact.length) {
          const there = pointOf.get(fact.reel)!
          const { value, u } = fact.length
          unknowns[`length of ${fact.id} off`] = measured(0, (there * u) / 1000)
          const took = sumOf(
            scaled(linearDensity(fact.reel), value / 1000),
            one(`length of ${fact.id} off`),
          )
          changes.push({ reel: fact.reel, at: fact.at, form: scaled(took, -1) })
        }
        break
      }
      case 'ran-dry': {
        const tail = fact.tail ?? priors.tail
        const left = scaled(linearDensity(fact.reel), tail.value / 1000)
        const u = (pointOf.get(fact.reel)! * tail.u) / 1000
        see(minus(net(fact.reel), left), measured(0, u))
        break
      }
      case 'measured': {
        const make = makeOf.get(fact.reel)!
        const { density, nominalArea } = ofMake.get(make)!
        const offMake = density.value * priors.densityOfOneMake.u
        if (fact.linearDensity) see(linearDensity(fact.reel), fact.linearDensity)
        if (fact.density) {
          const u = Math.hypot(fact.density.u, offMake)
          see(one(`mean density of ${make}`), measured(fact.density.value, u))
        }
        if (fact.calipers) {
          const { places, caliper = benchCaliper } = fact.calipers
          const area = crossSectionOfPlaces(places, caliper)
          see(
            minus(linearDensity(fact.reel), one(`mean density of ${make}`, area.value)),
            measured(0, Math.hypot(density.value * area.u, nominalArea * offMake)),
          )
        }
        if (fact.cutLength) {
          const { length, weighing } = fact.cutLength
          const metres = length.value / 1000
          const mass = weighing.reading - (weighing.extra?.value ?? 0)
          const place = priors.metreAboutReel.u / Math.sqrt(Math.max(1, metres))
          const spread = mass * Math.hypot(length.u / length.value, place)
          weigh(scaled(linearDensity(fact.reel), metres), weighing, spread)
        }
        break
      }
      case 'data-sheet': {
        if (fact.tare) see(one(`mean tare of ${fact.make}`), fact.tare)
        if (fact.density) {
          const { value, u } = fact.density
          const own = u > 0 ? u : value * priors.dataSheetOffset.u
          see(one(`mean density of ${fact.make}`), measured(value, own))
        }
      }
    }
  }

  let misfit = 0
  const joint = rows.reduce((sofar, row) => {
    const { joint: after, innovation, innovationSd } = condition(sofar, row)
    misfit += 2 * Math.log(innovationSd) + (innovation / innovationSd) ** 2
    return after
  }, jointNormal(unknowns))
  return { joint, tare, net, linearDensity, misfit }
}
