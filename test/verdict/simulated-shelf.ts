import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  marginal,
  reelPosterior,
  type ShelfEstimate,
  type ShelfPriors,
  shelfBelief,
  shelfNames,
} from '../../src/estimate/index.ts'
import { crossSection } from '../../src/filament/index.ts'
import { grams, measured, millimetres } from '../../src/units/index.ts'
import { chanceAt, type MarginModel, marginModel, unknownPrinter } from '../../src/verdict/index.ts'
import { BenchLedger, type LedgerTally } from './bench-ledger.ts'
import type { ShelfWorld } from './shelf-worlds.ts'
import { label, readScale, type Shown, type TrueReel, trueBench } from './true-bench.ts'
import { priorsAsWideAs } from './world-spreads.ts'

/** One print that was asked about, and what would then happen. */
export interface CloseCall {
  /** Chance stated with the reel weighed right then. */
  readonly weighed: number
  /** Chance stated from the ledger alone. */
  readonly unweighed: number
  readonly finished: boolean
  /** The hand method, with the reel weighed right then. */
  readonly handSaysYes: boolean
}

/** How a bench is simulated; all of it is for seeing what a part is worth. */
export interface BenchOptions {
  /** Spreads are learnt from the ledger; true unless given. */
  readonly learns?: boolean
  /** Spreads are known to be as wide as they are in the world, and none is learnt; false unless given. */
  readonly knowsSpreads?: boolean
  /**
   * Before two surprising weighings that agree are accepted, earlier ones that they contradict are voided;
   * true unless given.
   */
  readonly looksBack?: boolean
  /** False takes the likeliest spreads as if nothing were left to doubt of them. */
  readonly doubts?: boolean
  /** Share of readings that are grossly wrong; 0.02 unless given. */
  readonly slipShare?: number
}

const widths = new Map<ShelfWorld, ShelfPriors>()
const asWideAs = (world: ShelfWorld): ShelfPriors => {
  const priors = widths.get(world) ?? priorsAsWideAs(world)
  widths.set(world, priors)
  return priors
}

const handPerMetre = 1.24 * crossSection(measured(millimetres(1.75))).value
const days = 150
/** Of one reel on one day: more would not be worth their time, as what they share is asked once. */
const printsAsked = 32

/**
 * Five months on one bench drawn from a world. Reels are opened, a few of them part-used; printed from
 * until they run dry, some prints stopped on the way; and weighed now and then, one reading in fifty
 * grossly wrong. The estimate sees nothing but the ledger. On eight days every open reel is weighed and
 * 32 prints on it are asked about.
 *
 * What such a print truly needs is 0.7 to 1.3 of what the reel can still give, or, where the ledger does
 * not know the net that well, as far to both sides as 3.5 standard deviations of it reach. It is spread
 * evenly in its logarithm: so the length by itself tells nothing of what is on the reel, which it would
 * if spread evenly in the ratio. Of the 32 prints each has a 32nd part of that range to itself.
 *
 * What befalls the bench hangs on the generator alone. Readings and prints asked about are drawn from
 * generators of their own, so that two estimates meet the same bench however often either weighs again.
 */
export const simulateBench = (
  world: ShelfWorld,
  random: SeededRandom,
  {
    learns = true,
    looksBack = true,
    doubts = true,
    knowsSpreads = false,
    slipShare = 0.02,
  }: BenchOptions = {},
): { readonly calls: readonly CloseCall[]; readonly tally: LedgerTally } => {
  const bench = trueBench(world, random)
  const { reels, printers, gains, habits } = bench
  const ledger = new BenchLedger(bench.catalogue, {
    learns: learns && !knowsSpreads,
    doubts,
    looksBack,
    ...(knowsSpreads && { priors: asWideAs(world) }),
  })
  const calls: CloseCall[] = []
  const unopened = [...reels]
  const open: TrueReel[] = []
  let day = 0
  const upTo = (n: number): number => Math.floor(random.uniform() * n)
  const happens = (share: number): boolean => random.uniform() < share

  /** Weighs; beside what the ledger takes stands what a person without it would have written down. */
  const weigh = (reel: TrueReel, before: ShelfEstimate) => {
    const scale = upTo(gains.length)
    const readings = random.fork()
    const others = open.filter((other) => other !== reel)
    const shown: Shown[] = []
    const seen = ledger.weigh(before, () => {
      const reading = readScale(bench, world, readings, reel, others, scale, day, slipShare)
      shown.push(reading)
      const what = { kind: 'weighed', reel: reel.id, scale: `scale ${scale}` } as const
      return { ...ledger.next(day), ...what, reading: grams(reading.shown) }
    })
    // Ounces for grams are noticed by anybody; the rest only by somebody who expects something.
    return { seen, byHand: shown.find(({ slip }) => slip !== 'ounces')?.shown }
  }
  const weighAndTake = (reel: TrueReel): number | undefined => {
    const { seen, byHand } = weigh(reel, ledger.known())
    ledger.take(seen, makeOf(reel))
    return byHand
  }

  const openOne = (): void => {
    const reel = unopened.splice(upTo(unopened.length), 1)[0]!
    const partUsed = happens(0.15)
    const opening = { kind: 'opened', ...ledger.next(day), reel: reel.id, partUsed } as const
    ledger.record({ ...opening, labelNet: grams(label) })
    open.push(reel)
    const { atRest, whenNew, ofPartUsed } = reel.water
    reel.opened = { day, share: atRest * (partUsed ? ofPartUsed : whenNew) }
    if (partUsed) {
      reel.net *= random.between(0.2, 0.9)
      weighAndTake(reel)
    } else if (happens(habits.whenNew)) {
      const gross = weighAndTake(reel)
      if (gross !== undefined) reel.newGross = gross
    }
  }

  /** What a printer would do with one print: metres for each metre asked, start and tail in metres. */
  const once = (place: number, by: SeededRandom) => {
    const { feedFactor, feedOfOneDraw, startOfOneDraw } = printers[place]!
    const phi = feedFactor * (1 + feedOfOneDraw(by))
    const start = startOfOneDraw(by) / 1000
    return { phi, start, tail: Math.max(0, world.tail(by)) / 1000 }
  }

  const print = (): void => {
    const reel = random.pick(open)
    const place = upTo(printers.length)
    const { phi, start, tail } = once(place, random)
    const asked = Math.exp(random.between(Math.log(2), Math.log(50)))
    const stopped = happens(0.08) ? random.between(0.05, 0.95) : 1
    const lasts = Math.max(0, (reel.net / reel.perMetre - tail - start) / (phi * asked))
    const share = Math.min(stopped, lasts)
    const read = Math.min(1, Math.max(0, share + random.normal(0, 0.01)))
    ledger.record({
      kind: 'drew',
      ...ledger.next(day),
      reel: reel.id,
      printer: `printer ${place}`,
      length: millimetres(1000 * asked),
      ...(share < 1 && { share: measured(read, 0.01) }),
    })
    if (share === stopped) {
      reel.net -= reel.perMetre * (start + phi * asked * share)
      if (happens(habits.after)) weighAndTake(reel)
    } else {
      ledger.record({ kind: 'ran-dry', ...ledger.next(day), reel: reel.id })
      reel.net = reel.perMetre * tail
      if (happens(habits.empty)) weighAndTake(reel)
      open.splice(open.indexOf(reel), 1)
    }
  }

  const ask = (reel: TrueReel, before: ShelfEstimate): void => {
    const { seen, byHand } = weigh(reel, before)
    const prints = random.fork()
    if (seen.length === 0 || byHand === undefined) return
    const after = ledger.seenNow(before, seen, makeOf(reel))
    const joint = reelPosterior(before, reel.id)
    const { value, u } = marginal(joint, { terms: { [shelfNames.net]: 1 } })
    const reach = Math.max(Math.log(1.3), (3.5 * u) / Math.max(1, value)) / Math.log(1.3)
    const handNet = byHand - (reel.newGross === undefined ? 250 : reel.newGross - label)
    const weighed = modelsOf(after, reel.id)
    const unweighed = modelsOf(before, reel.id)
    for (let i = 0; i < printsAsked; i++) {
      const place = Math.floor(prints.uniform() * printers.length)
      const { phi, start, tail } = once(place, prints)
      const gives = reel.net / reel.perMetre - tail
      const part = (i + prints.uniform()) / printsAsked
      const ratio = Math.exp(Math.min(6, reach) * (Math.log(0.7) + part * Math.log(1.3 / 0.7)))
      const metres = (ratio * gives - start) / phi
      // Nobody asks about the shortest prints; and only the length asked may decide what is left out.
      if (metres < 5) continue
      calls.push({
        weighed: chanceAt(weighed(place), 1000 * metres),
        unweighed: chanceAt(unweighed(place), 1000 * metres),
        finished: ratio < 1,
        handSaysYes: handNet >= handPerMetre * metres,
      })
    }
  }

  const asking = new Set(Array.from({ length: 8 }, () => 10 + upTo(days - 10)))
  for (day = 1; day < days; day++) {
    while (open.length < 3 && unopened.length > 0) openOne()
    if (open.length === 0) break
    if (asking.has(day)) {
      const before = ledger.reckon()
      for (const reel of open) ask(reel, before)
    }
    for (let prints = upTo(4); prints > 0 && open.length > 0; prints--) print()
  }
  return { calls, tally: ledger.tally }
}

/** The margin on each printer, by its place, reckoned when first asked for. */
const modelsOf = (estimate: ShelfEstimate, reel: string): ((place: number) => MarginModel) => {
  const models = new Map<number, MarginModel>()
  return (place) => {
    const printer = `printer ${place}`
    const model =
      models.get(place) ??
      marginModel(shelfBelief(estimate, reel, { printer, examine: 'last' }), unknownPrinter)
    models.set(place, model)
    return model
  }
}

const makeOf = (reel: TrueReel): string => `make ${reel.make}`

/** A close call and the bench that it was on. */
export interface BenchCall extends CloseCall {
  readonly bench: number
}

/** What a world came to. */
export interface ShelfSimulation {
  readonly calls: readonly BenchCall[]
  readonly tally: LedgerTally
  readonly benches: number
}

/** Benches of a world. Of one seed the same benches of it are met, whatever the options. */
export const simulateShelves = (
  world: ShelfWorld,
  benches: number,
  seed: number,
  options: BenchOptions = {},
): ShelfSimulation => {
  const random = new SeededRandom(seed)
  const calls: BenchCall[] = []
  const tally: LedgerTally = { weighings: 0, flagged: 0, voided: 0 }
  for (let bench = 0; bench < benches; bench++) {
    const one = simulateBench(world, random.fork(), options)
    for (const call of one.calls) calls.push({ ...call, bench })
    tally.weighings += one.tally.weighings
    tally.flagged += one.tally.flagged
    tally.voided += one.tally.voided
  }
  return { calls, tally, benches }
}
