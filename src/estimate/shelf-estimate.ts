import { DomainError } from '../units/index.ts'
import { NumberRoom } from './number-room.ts'
import { makeUnknowns, type ShelfBook, shelfBook } from './shelf-book.ts'
import { type ReelBlock, reelChain, type ShelfPoint } from './shelf-chain.ts'
import { dealt, inOrder, makeOf, reelOf } from './shelf-deal.ts'
import type { ShelfCatalogue, ShelfFact } from './shelf-facts.ts'
import { type MakeBlock, makeBlock } from './shelf-make-block.ts'
import { defaultShelfPriors, type ShelfPriors } from './shelf-priors.ts'
import { type SharedPosterior, sharedPosterior } from './shelf-shared.ts'
import { isTapedAlike, type Tape, tapeOfMake, tapeOfReel } from './shelf-tape.ts'
import { type StandIn, standInsOf } from './stand-in.ts'

/**
 * What the whole shelf tells of every reel, make, printer and scale. Immutable: a fact more gives a
 * new estimate that shares all it can with the old one. Read it with `reelPosterior`,
 * `makePosterior`, `printerPosterior`, `scalePosterior` and `shelfNets`.
 */
export interface ShelfEstimate {
  readonly book: ShelfBook
  /** Where products of unknowns were expanded. */
  readonly point: ShelfPoint
  /** Facts of each reel in order of time. */
  readonly reelFacts: readonly (readonly ShelfFact[])[]
  /** Facts of each make that concern no reel, in order of time. */
  readonly makeFacts: readonly (readonly ShelfFact[])[]
  readonly tapes: readonly Tape[]
  readonly makeTapes: readonly Tape[]
  readonly blocks: readonly ReelBlock[]
  readonly makeOwnBlocks: readonly ReelBlock[]
  readonly makes: readonly MakeBlock[]
  /** Places of the reels of each make. */
  readonly reelsOfMake: readonly (readonly number[])[]
  /** Places of reels that tell nothing of makes, printers and scales; see `reelsApart`. */
  readonly apart: ReadonlySet<number>
  readonly shared: SharedPosterior
  /**
   * The same under each of the priors that stand for all that these may be; none where these are taken as
   * known. Reckoned when first asked for.
   */
  readonly standIns: () => readonly StandIn<ShelfEstimate>[]
}

/** How to estimate. */
export interface ShelfOptions {
  /** `defaultShelfPriors` unless given. */
  readonly priors?: ShelfPriors
  /** How often to expand the products: 1 about the prior means, 2 once again about the result. */
  readonly rounds?: number
  /** Where the first round expands them; about the prior means unless given. */
  readonly about?: ShelfPoint
  /** Priors that stand for all that `priors` may be; see `LearntSpreads`. None unless given. */
  readonly standIns?: readonly StandIn<ShelfPriors>[]
}

/**
 * The posterior of the whole shelf.
 *
 * Facts come in any order; those of one reel are put in order of time, of equal times the one that
 * comes first here stays first. Work and memory grow in proportion to facts and reels.
 *
 * @param facts - voided ones left out
 * @throws DomainError `id_twice`, `unknown_id`, `material_unknown`, `impossible_make`,
 *   `opened_not_first`, `impossible_fact`
 * @see docs/method/shelf.md
 */
export const estimateShelf = (
  catalogue: ShelfCatalogue,
  facts: Iterable<ShelfFact>,
  { priors = defaultShelfPriors, rounds = 2, about, standIns = [] }: ShelfOptions = {},
): ShelfEstimate => {
  const book = shelfBook(catalogue, priors)
  const reelsOfMake: number[][] = catalogue.makes.map(() => [])
  for (const [reel, make] of book.makeOfReel.entries()) reelsOfMake[make]!.push(reel)
  const told = { book, ...dealt(book, facts), reelsOfMake, apart: new Set<number>() }
  const room = new NumberRoom()
  let estimate = expanded(told, about ?? priorPoint(book), room)
  for (let round = 1; round < rounds; round++) {
    const point = pointOf(book, estimate.blocks, estimate.shared)
    // Of one round only this is taken on: the next is laid in its place.
    room.clear()
    estimate = expanded(told, point, room)
  }
  return standIns.length === 0 ? estimate : withStandIns(estimate, () => standIns)
}

const none = (): readonly StandIn<ShelfEstimate>[] => []

const lazily = <T>(make: () => T): (() => T) => {
  let made: T | undefined
  return () => (made ??= make())
}

const withStandIns = (
  estimate: ShelfEstimate,
  standIns: () => readonly StandIn<ShelfPriors>[],
): ShelfEstimate => ({
  ...estimate,
  standIns: lazily(() => standInsOf(standIns(), (priors) => withPriors(estimate, priors))),
})

/** Does to the stand-ins, once they are asked for, what was done to the estimate. */
const alsoStandIns = (
  { standIns }: ShelfEstimate,
  change: (one: ShelfEstimate) => ShelfEstimate,
): ShelfEstimate['standIns'] =>
  standIns === none ? none : lazily(() => standInsOf(standIns(), change))

/** An estimate before anything is reckoned. */
type Told = Pick<
  ShelfEstimate,
  'book' | 'reelFacts' | 'makeFacts' | 'tapes' | 'makeTapes' | 'reelsOfMake' | 'apart'
>

/** One round, products expanded about a point. */
const expanded = (told: Told, point: ShelfPoint, room = new NumberRoom()): ShelfEstimate => {
  const { book, tapes, makeTapes, reelsOfMake, apart } = told
  const blocks = tapes.map((tape, reel) => {
    const lambda = point.linearDensity[reel]!
    return reelChain(tape, book, book.makeOfReel[reel]!, point, lambda, undefined, room)
  })
  const makeOwnBlocks = makeTapes.map((tape, make) => reelChain(tape, book, make, point, 0))
  const makes = reelsOfMake.map((reels, make) =>
    sumOfMake(blocks, makeOwnBlocks, trusted(reels, apart), make),
  )
  const shared = sharedPosterior(makes, book.coreValue.length)
  return { ...told, point, blocks, makeOwnBlocks, makes, shared, standIns: none }
}

/**
 * The estimate of the same facts by other priors, which are taken as known. Products stay expanded where they were, which differs
 * from a fresh estimate to second order only.
 *
 * @throws DomainError as `estimateShelf`
 */
export const withPriors = (before: ShelfEstimate, priors: ShelfPriors): ShelfEstimate => {
  const { book: old, reelFacts, makeFacts, point } = before
  const book = shelfBook(old.catalogue, priors)
  const tapes = isTapedAlike(old.priors, priors) ? {} : tapesOf(book, reelFacts, makeFacts)
  return expanded({ ...before, ...tapes, book }, point)
}

/**
 * The estimate with some facts more: only what they touch is reckoned anew. Products stay expanded
 * where they were, which differs from a fresh estimate to second order only.
 *
 * @throws DomainError as `estimateShelf`
 */
export const withFacts = (before: ShelfEstimate, facts: Iterable<ShelfFact>): ShelfEstimate => {
  const { book } = before
  const reelFacts = [...before.reelFacts]
  const makeFacts = [...before.makeFacts]
  const reels = new Set<number>()
  const makes = new Set<number>()
  for (const fact of facts) {
    const reel = reelOf(fact, book)
    if (reel === undefined) {
      const make = makeOf(fact, book)
      makeFacts[make] = [...makeFacts[make]!, fact]
      makes.add(make)
    } else {
      reelFacts[reel] = [...reelFacts[reel]!, fact]
      reels.add(reel)
    }
  }
  return renewed(before, reelFacts, makeFacts, reels, makes)
}

/**
 * The estimate without some facts, by their ids.
 *
 * @throws DomainError `unknown_id` for an id that no fact has
 */
export const withoutFacts = (before: ShelfEstimate, ids: Iterable<string>): ShelfEstimate => {
  const gone = new Set(ids)
  const reels = new Set<number>()
  const makes = new Set<number>()
  const found = new Set<string>()
  const without = (into: Set<number>) => (list: readonly ShelfFact[], place: number) => {
    const out = list.filter(({ id }) => gone.has(id))
    if (out.length === 0) return list
    for (const { id } of out) found.add(id)
    into.add(place)
    return list.filter(({ id }) => !gone.has(id))
  }
  const reelFacts = before.reelFacts.map(without(reels))
  const makeFacts = before.makeFacts.map(without(makes))
  for (const id of gone) {
    if (!found.has(id)) throw new DomainError('unknown_id', `there is no fact ${id}`)
  }
  return renewed(before, reelFacts, makeFacts, reels, makes)
}

/**
 * The estimate without one weighing of a reel. Where it was made at the opening, only the mass when new
 * is taken out and the reel stays opened.
 *
 * @throws DomainError `unknown_id` for an id that no fact of a reel has
 */
export const withoutWeighing = (before: ShelfEstimate, id: string): ShelfEstimate => {
  const reel = before.reelFacts.findIndex((list) => list.some((fact) => fact.id === id))
  if (reel < 0) throw new DomainError('unknown_id', `there is no fact ${id}`)
  const reelFacts = before.reelFacts.with(
    reel,
    before.reelFacts[reel]!.flatMap((fact) => {
      if (fact.id !== id) return fact
      if (fact.kind !== 'opened') return []
      const { grossWhenNew: _, ...rest } = fact
      return rest
    }),
  )
  return renewed(before, reelFacts, before.makeFacts, new Set([reel]), new Set())
}

/**
 * The estimate with some reels apart: what they and their facts say of makes, printers and scales is
 * not heeded. Of themselves they say what they say.
 *
 * @param apart - places of reels
 */
export const withApart = (before: ShelfEstimate, apart: ReadonlySet<number>): ShelfEstimate => {
  const { blocks, makeOwnBlocks, reelsOfMake, book } = before
  const stale = new Set(
    [...apart.symmetricDifference(before.apart)].map((reel) => book.makeOfReel[reel]!),
  )
  const makes = before.makes.map((old, make) =>
    stale.has(make)
      ? sumOfMake(blocks, makeOwnBlocks, trusted(reelsOfMake[make]!, apart), make)
      : old,
  )
  return {
    ...before,
    apart,
    makes,
    shared: sharedPosterior(makes, book.coreValue.length),
    standIns: alsoStandIns(before, (one) => withApart(one, apart)),
  }
}

/** What was known at a time: the estimate from the facts up to and including it. */
export const shelfAsKnownAt = (
  { book, reelFacts, makeFacts, standIns }: ShelfEstimate,
  at: number,
  rounds = 2,
): ShelfEstimate => {
  const known = [...reelFacts, ...makeFacts].flatMap((list) => list.filter((fact) => fact.at <= at))
  const then = estimateShelf(book.catalogue, known, { priors: book.priors, rounds })
  return standIns === none
    ? then
    : withStandIns(then, () => standInsOf(standIns(), (one) => one.book.priors))
}

const renewed = (
  before: ShelfEstimate,
  reelFacts: readonly (readonly ShelfFact[])[],
  makeFacts: readonly (readonly ShelfFact[])[],
  reels: ReadonlySet<number>,
  touchedMakes: ReadonlySet<number>,
): ShelfEstimate => {
  const { book, point, reelsOfMake, apart } = before
  const tapes = [...before.tapes]
  const makeTapes = [...before.makeTapes]
  const blocks = [...before.blocks]
  const makeOwnBlocks = [...before.makeOwnBlocks]
  const makes = [...before.makes]
  const ordered = [...reelFacts]
  const orderedMakes = [...makeFacts]
  const stale = new Set(touchedMakes)
  for (const reel of reels) {
    const make = book.makeOfReel[reel]!
    ordered[reel] = inOrder(reelFacts[reel]!)
    const tape = tapeOfReel(book, ordered[reel], make)
    tapes[reel] = tape
    blocks[reel] = reelChain(tape, book, make, point, point.linearDensity[reel]!)
    stale.add(make)
  }
  for (const make of touchedMakes) {
    orderedMakes[make] = inOrder(makeFacts[make]!)
    const tape = tapeOfMake(book, orderedMakes[make], make)
    makeTapes[make] = tape
    makeOwnBlocks[make] = reelChain(tape, book, make, point, 0)
  }
  for (const make of stale) {
    makes[make] = sumOfMake(blocks, makeOwnBlocks, trusted(reelsOfMake[make]!, apart), make)
  }
  return {
    ...before,
    reelFacts: ordered,
    makeFacts: orderedMakes,
    tapes,
    makeTapes,
    blocks,
    makeOwnBlocks,
    makes,
    shared: sharedPosterior(makes, book.coreValue.length),
    standIns: alsoStandIns(before, (one) =>
      renewed(one, reelFacts, makeFacts, reels, touchedMakes),
    ),
  }
}

const tapesOf = (
  book: ShelfBook,
  reelFacts: readonly (readonly ShelfFact[])[],
  makeFacts: readonly (readonly ShelfFact[])[],
): Pick<ShelfEstimate, 'tapes' | 'makeTapes'> => ({
  tapes: reelFacts.map((list, reel) => tapeOfReel(book, list, book.makeOfReel[reel]!)),
  makeTapes: makeFacts.map((list, make) => tapeOfMake(book, list, make)),
})

/** Reels whose word counts for makes, printers and scales. */
const trusted = (reels: readonly number[], apart: ReadonlySet<number>): readonly number[] =>
  apart.size === 0 ? reels : reels.filter((reel) => !apart.has(reel))

const sumOfMake = (
  blocks: readonly ReelBlock[],
  makeOwnBlocks: readonly ReelBlock[],
  reels: readonly number[],
  make: number,
): MakeBlock => makeBlock([makeOwnBlocks[make]!, ...reels.map((reel) => blocks[reel]!)])

const priorPoint = (book: ShelfBook): ShelfPoint => ({
  core: book.coreValue.slice(),
  linearDensity: Float64Array.from(book.makeOfReel, (make) => {
    const { nominalArea, density } = book.makes[make]!
    return nominalArea * density.value
  }),
  make: book.makes.map(() => new Float64Array(makeUnknowns.count)),
})

const pointOf = (
  book: ShelfBook,
  blocks: readonly ReelBlock[],
  { coreMean, makeMean }: SharedPosterior,
): ShelfPoint => ({
  core: book.coreValue.map((value, i) => value + book.coreSpread[i]! * coreMean[i]!),
  linearDensity: Float64Array.from(blocks, ({ columns, mean, loads }, reel) => {
    const ofMake = makeMean[book.makeOfReel[reel]!]!
    const k = 4 + columns.length
    let sum = mean[2]!
    for (let j = 0; j < 4; j++) sum += loads[2 * k + j]! * ofMake[j]!
    for (let j = 0; j < columns.length; j++) sum += loads[2 * k + 4 + j]! * coreMean[columns[j]!]!
    // Facts that contradict each other may give what no filament has; nothing is expanded there.
    const { nominalArea, density } = book.makes[book.makeOfReel[reel]!]!
    const usual = nominalArea * density.value
    return Math.min(Math.max(sum, usual / 4), 4 * usual)
  }),
  make: makeMean,
})
