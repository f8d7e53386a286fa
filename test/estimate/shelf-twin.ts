import {
  condition,
  extend,
  type JointNormal,
  jointNormal,
  type LinearForm,
  makePrior,
  marginal,
  printerPrior,
  type ReelMeasured,
  type ReelRanDry,
  type ReelWeighed,
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
  /** Water over dry mass at the time `stop`, at its last fact without. */
  readonly water: (reel: string) => LinearForm
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
 *
 * @param stop - a time at which the water of each reel is wanted
 */
export const shelfTwin = (
  { makes, printers, scales, reels }: ShelfCatalogue,
  facts: readonly ShelfFact[],
  priors: ShelfPriors,
  point: ShelfPoint,
  stop?: number,
): ShelfTwin => {
  const ordered = facts.toSorted((a, b) => a.at - b.at)
  const unknowns: Record<string, Measured> = {}
  // The same world with all that is shared where products are expanded: tells where to expand more.
  let there = jointNormal({})
  const own = (name: string, prior: Measured): void => {
    unknowns[name] = prior
    there = extend(there, { [name]: prior })
  }
  const shared = (name: string, prior: Measured, off: number): void => {
    unknowns[name] = prior
    there = extend(there, { [name]: measured(prior.value + off) })
  }

  const ofMake = new Map(makes.map((make) => [make.id, makePrior(make, priors)]))
  for (const [i, { id }] of makes.entries()) {
    const { tare, overfill, density, areaSpread } = ofMake.get(id)!
    const [ofTare, ofOverfill, ofDensity, ofArea] = point.make[i]!
    shared(`mean tare of ${id}`, tare, tare.u * ofTare!)
    shared(`mean overfill of ${id}`, overfill, overfill.u * ofOverfill!)
    shared(`mean density of ${id}`, density, density.u * ofDensity!)
    shared(`area of ${id} off nominal`, measured(0, areaSpread), areaSpread * ofArea!)
  }
  for (const [i, printer] of printers.entries()) {
    const { feedFactor, startAllowance } = printerPrior(printer, priors)
    const [phi, start] = point.core.subarray(2 * i, 2 * i + 2)
    shared(`feed factor of ${printer.id}`, feedFactor, phi! - feedFactor.value)
    shared(`start allowance of ${printer.id}`, startAllowance, start! - startAllowance.value)
  }
  for (const [i, { id, scale }] of scales.entries()) {
    const gain = scale.gain * priors.scaleOverStated.value
    shared(`gain of ${id}`, measured(0, gain), point.core[2 * printers.length + i]!)
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

  // Every change of the net, in order of time; `anew` where what was there before is gone.
  const changes: { reel: string; at: number; form: LinearForm; anew?: true }[] = []
  const net = (reel: string, at = Infinity): LinearForm => {
    const its = changes.filter((c) => c.reel === reel && c.at <= at)
    const from = Math.max(
      0,
      its.findLastIndex(({ anew }) => anew),
    )
    return sumOf(...its.slice(from).map(({ form }) => form))
  }

  // The water of each reel that has any: its share now, where it goes, and since when.
  const waters = new Map<string, { share: LinearForm; rest: Measured; at: number }>()
  const age = (reel: string, at: number): void => {
    const now = waters.get(reel)
    if (!now || !(at > now.at)) return
    const { days } = ofMake.get(makeOf.get(reel)!)!.water!
    const left = Math.exp((now.at - at) / days)
    own(`water of ${reel} strays until ${at}`, measured(0, now.rest.u * Math.sqrt(1 - left ** 2)))
    const share = sumOf(
      fixed(now.rest.value),
      scaled(minus(now.share, fixed(now.rest.value)), left),
      one(`water of ${reel} strays until ${at}`),
    )
    waters.set(reel, { ...now, share, at })
  }
  const expectedWater = (reel: string, share: LinearForm): number => {
    const { value } = marginal(there, share)
    return Math.min(Math.max(value, 0), ofMake.get(makeOf.get(reel)!)!.water!.most)
  }

  const overStated = priors.scaleOverStated.value
  const rows: { form: LinearForm; value: number; variance: number }[] = []
  const row = (form: LinearForm, value: number, variance: number): void => {
    rows.push({ form, value, variance })
    there = condition(there, { form, value, variance }).joint
  }
  /** A load of which `filament` has water in it, expanded thrice: each time where the last led. */
  const weighDamp = (
    reel: string,
    rest: LinearForm,
    filament: LinearForm,
    seen: ShelfWeighing,
    spread = 0,
  ): void => {
    const water = waters.get(reel)
    if (!water) return weigh(sumOf(rest, filament), seen, spread)
    const before = there
    const count = rows.length
    for (let time = 0; time < 3; time++) {
      const mass = Math.max(0, marginal(there, filament).value)
      const share = expectedWater(reel, water.share)
      there = before
      rows.length = count
      const product = sumOf(
        scaled(filament, 1 + share),
        scaled(water.share, mass),
        fixed(-mass * share),
      )
      weigh(sumOf(rest, product), seen, spread)
    }
  }
  const weigh = (load: LinearForm, seen: ShelfWeighing, spread = 0): void => {
    const { scale } = scales.find(({ id }) => id === seen.scale)!
    const repeatability = grams(scale.repeatability * overStated)
    const variance =
      seen.u === undefined ? readingVariance({ ...scale, repeatability }) : seen.u ** 2
    row(
      sumOf(load, one(`gain of ${seen.scale}`, seen.reading)),
      seen.reading - (seen.extra?.value ?? 0),
      variance + (seen.extra?.u ?? 0) ** 2 + spread ** 2,
    )
  }
  const see = (form: LinearForm, { value, u }: Measured): void => {
    row(form, value, u ** 2)
  }

  for (const { id, make } of reels) {
    const { nominalArea, density } = ofMake.get(make)!
    const opened = ordered.find((fact) => fact.kind === 'opened' && fact.reel === id)
    const label =
      opened?.kind === 'opened' && (opened.partUsed !== true || opened.grossWhenNew !== undefined)
        ? opened.labelNet
        : undefined
    own(`carrier of ${id} off its make`, measured(0, priors.carrierOfOneMake.u))
    own(
      `linear density of ${id} off its make`,
      measured(0, nominalArea * density.value * priors.reelAboutMake.u),
    )
    const { water } = ofMake.get(make)!
    const first = ordered.find((fact) => 'reel' in fact && fact.reel === id)
    if (water) {
      const isNew = opened?.kind === 'opened' && opened.partUsed !== true
      own(`water of ${id} at first`, isNew ? water.whenNew : water.ofPartUsed)
      const at = first?.at ?? Infinity
      waters.set(id, { share: one(`water of ${id} at first`), rest: water.atRest.room, at })
    }
    if (label === undefined) {
      const partOf = opened?.kind === 'opened' && opened.partUsed === true
      const upTo = partOf
        ? (opened.labelNet ?? makes.find((each) => each.id === make)!.labelNet)
        : undefined
      const isTold = ordered.some(
        (fact) =>
          'reel' in fact &&
          fact.reel === id &&
          (fact.kind === 'weighed' ||
            fact.kind === 'ran-dry' ||
            (fact.kind === 'opened' && fact.grossWhenNew !== undefined) ||
            (fact.kind === 'measured' && fact.winding !== undefined)),
      )
      const { value, u } =
        upTo === undefined || isTold ? priors.openingWithoutLabel : measured(0.2 * upTo, 0.5 * upTo)
      own(`opening of ${id}`, measured(value, u))
      changes.push({ reel: id, at: -Infinity, form: one(`opening of ${id}`) })
    } else {
      // n₀ = label·(mean overfill + the reel's own)
      own(`overfill of ${id} off its make`, measured(0, priors.overfillOfOneMake.u))
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

  const unsure = new Set<string>()
  const unrecorded = ({ id, reel, at, ...more }: ReelWeighed | ReelRanDry | ReelMeasured): void => {
    const isToldHere = 'afterUnrecorded' in more
    const isToldBefore = unsure.delete(reel)
    if (!isToldHere && !isToldBefore) return
    own(`unrecorded before ${id}`, measured(0, priors.openingWithoutLabel.u))
    changes.push({ reel, at, form: one(`unrecorded before ${id}`) })
  }

  const stopped = new Map<string, LinearForm>()
  const stopAll = (at: number): void => {
    for (const { id } of reels) age(id, at)
    for (const [reel, { share }] of waters) stopped.set(reel, share)
  }
  for (const fact of ordered) {
    if (stop !== undefined && stopped.size === 0 && fact.at > stop) stopAll(stop)
    if ('reel' in fact && fact.reel !== undefined) age(fact.reel, fact.at)
    switch (fact.kind) {
      case 'opened':
        if (fact.grossWhenNew) {
          weighDamp(fact.reel, tare(fact.reel), net(fact.reel), fact.grossWhenNew)
          if (fact.partUsed === true) {
            const label =
              fact.labelNet ?? makes.find(({ id }) => id === makeOf.get(fact.reel))!.labelNet
            const used =
              label === undefined
                ? measured(0, priors.openingWithoutLabel.u)
                : measured(0.8 * label, 0.5 * label)
            own(`used before ${fact.id}`, used)
            changes.push({
              reel: fact.reel,
              at: fact.at,
              form: one(`used before ${fact.id}`, -1),
            })
          }
        }
        break
      case 'weighed':
        unrecorded(fact)
        weighDamp(fact.reel, tare(fact.reel), net(fact.reel), fact)
        break
      case 'dried': {
        const water = waters.get(fact.reel)
        if (!water) break
        const usual = ofMake.get(makeOf.get(fact.reel)!)!.water!.afterDrying
        const { value, u } = fact.remaining ?? usual
        own(`water left by ${fact.id}`, measured(value, u > 0 ? u : usual.u))
        waters.set(fact.reel, { ...water, share: one(`water left by ${fact.id}`) })
        break
      }
      case 'moved': {
        const water = waters.get(fact.reel)
        const { atRest } = ofMake.get(makeOf.get(fact.reel)!)!.water ?? {}
        if (water && atRest) waters.set(fact.reel, { ...water, rest: atRest[fact.air] })
        break
      }
      case 'carrier-weighed':
        if (fact.reel !== undefined) weigh(tare(fact.reel), fact)
        else weigh(one(`mean tare of ${fact.make}`), fact, priors.carrierOfOneMake.u)
        break
      case 'drew': {
        if (fact.afterUnrecorded) unsure.add(fact.reel)
        // λ·(φ·L + s), each product to first order about the point
        const p = printers.findIndex(({ id }) => id === fact.printer)
        const phi = point.core[2 * p]!
        const start = point.core[2 * p + 1]!
        const sheet = pointOf.get(fact.reel)!
        const asked = fact.length / 1000
        const metres = asked * (fact.share?.value ?? 1)
        own(
          `error of ${fact.id}`,
          measured(
            0,
            sheet *
              Math.hypot(
                phi * metres * priors.feedOfOneDraw.u,
                priors.startOfOneDraw.u / 1000,
                phi * asked * (fact.share?.u ?? 0),
              ),
          ),
        )
        const took = sumOf(
          scaled(linearDensity(fact.reel), phi * metres + start / 1000),
          scaled(minus(one(`feed factor of ${fact.printer}`), fixed(phi)), sheet * metres),
          scaled(minus(one(`start allowance of ${fact.printer}`), fixed(start)), sheet / 1000),
          one(`error of ${fact.id}`),
        )
        changes.push({ reel: fact.reel, at: fact.at, form: scaled(took, -1) })
        break
      }
      case 'trimmed': {
        if (fact.afterUnrecorded) unsure.add(fact.reel)
        if (fact.mass) {
          own(`mass of ${fact.id}`, fact.mass)
          const water = waters.get(fact.reel)
          // m/(1 + w), to first order
          const share = water ? expectedWater(fact.reel, water.share) : 0
          const perShare = fact.mass.value / (1 + share) ** 2
          const dry = sumOf(
            one(`mass of ${fact.id}`, 1 / (1 + share)),
            scaled(water ? minus(water.share, fixed(share)) : fixed(0), -perShare),
          )
          changes.push({ reel: fact.reel, at: fact.at, form: scaled(dry, -1) })
        }
        if (fact.length) {
          const { value, u } = fact.length
          own(`length of ${fact.id} off`, measured(0, (pointOf.get(fact.reel)! * u) / 1000))
          const took = sumOf(
            scaled(linearDensity(fact.reel), value / 1000),
            one(`length of ${fact.id} off`),
          )
          changes.push({ reel: fact.reel, at: fact.at, form: scaled(took, -1) })
        }
        break
      }
      case 'ran-dry': {
        unrecorded(fact)
        const tail = fact.tail ?? priors.tail
        const left = scaled(linearDensity(fact.reel), tail.value / 1000)
        const u = (pointOf.get(fact.reel)! * tail.u) / 1000
        see(minus(net(fact.reel), left), measured(0, u))
        break
      }
      case 'emptied':
        unsure.delete(fact.reel)
        changes.push({ reel: fact.reel, at: fact.at, form: fixed(0), anew: true })
        break
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
          const piece = scaled(linearDensity(fact.reel), metres)
          weighDamp(fact.reel, fixed(0), piece, weighing, spread)
        }
        if (fact.winding) {
          unrecorded(fact)
          // By the drum formula, independent of how the layer below reckons it; mm³ to cm³.
          const { hub, outer, width } = fact.winding
          const quarter = Math.PI / 4000
          const volume = quarter * (outer.value ** 2 - hub.value ** 2) * width.value
          const u = Math.hypot(
            quarter * (outer.value ** 2 - hub.value ** 2) * width.u,
            2 * quarter * outer.value * width.value * outer.u,
            2 * quarter * hub.value * width.value * hub.u,
          )
          const { value: k, u: ofPacking } = priors.packing
          const error = Math.hypot(
            density.value * k * u,
            density.value * ofPacking * volume,
            offMake * k * volume,
          )
          see(minus(net(fact.reel), one(`mean density of ${make}`, k * volume)), measured(0, error))
        }
        break
      }
      case 'data-sheet': {
        if (fact.tare) see(one(`mean tare of ${fact.make}`), fact.tare)
        if (fact.density) {
          const { value, u } = fact.density
          const spread = u > 0 ? u : value * priors.dataSheetOffset.u
          see(one(`mean density of ${fact.make}`), measured(value, spread))
        }
      }
    }
  }

  if (stop === undefined || stopped.size === 0) {
    if (stop !== undefined) stopAll(stop)
    else for (const [reel, { share }] of waters) stopped.set(reel, share)
  }
  let misfit = 0
  const joint = rows.reduce((sofar, each) => {
    const { joint: after, innovation, innovationSd } = condition(sofar, each)
    misfit += 2 * Math.log(innovationSd) + (innovation / innovationSd) ** 2
    return after
  }, jointNormal(unknowns))
  const water = (reel: string): LinearForm => stopped.get(reel) ?? fixed(0)
  return { joint, tare, net, linearDensity, water, misfit }
}
