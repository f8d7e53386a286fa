import { DomainError } from '../units/index.ts'
import { makeUnknowns, placeOf, type ShelfBook, shelfBook } from './shelf-book.ts'
import { type ReelBlock, reelChain, type ShelfPoint } from './shelf-chain.ts'
import type { ShelfCatalogue, ShelfFact } from './shelf-facts.ts'
import { type MakeBlock, makeBlock } from './shelf-make-block.ts'
import { defaultShelfPriors, type ShelfPriors } from './shelf-priors.ts'
import { type SharedPosterior, sharedPosterior } from './shelf-shared.ts'
import { type Tape, TapeWriter } from './shelf-tape.ts'

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
  readonly blocks: readonly ReelBlock[]
  readonly makeOwnBlocks: readonly ReelBlock[]
  readonly makes: readonly MakeBlock[]
  /** Places of the reels of each make. */
  readonly reelsOfMake: readonly (readonly number[])[]
  readonly shared: SharedPosterior
}

/** How to estimate. */
export interface ShelfOptions {
  /** `defaultShelfPriors` unless given. */
  readonly priors?: ShelfPriors
  /** How often to expand the products: 1 about the prior means, 2 once again about the result. */
  readonly rounds?: number
  /** Where the first round expands them; about the prior means unless given. */
  readonly about?: ShelfPoint
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
  { priors = defaultShelfPriors, rounds = 2, about }: ShelfOptions = {},
): ShelfEstimate => {
  const book = shelfBook(catalogue, priors)
  const reelFacts: ShelfFact[][] = catalogue.reels.map(() => [])
  const makeFacts: ShelfFact[][] = catalogue.makes.map(() => [])
  for (const fact of facts) listOf(fact, book, reelFacts, makeFacts).push(fact)
  for (const [reel, list] of reelFacts.entries()) reelFacts[reel] = inOrder(list)
  for (const [make, list] of makeFacts.entries()) makeFacts[make] = inOrder(list)

  const writer = new TapeWriter(book)
  const tapes = reelFacts.map((list, reel) => writer.writeReel(list, book.makeOfReel[reel]!))
  const makeTapes = makeFacts.map((list, make) => writer.writeMake(list, make))
  const reelsOfMake: number[][] = catalogue.makes.map(() => [])
  for (let reel = 0; reel < tapes.length; reel++) {
    reelsOfMake[book.makeOfReel[reel]!]!.push(reel)
  }

  let point = about ?? priorPoint(book)
  for (let round = 1; ; round++) {
    const blocks = tapes.map((tape, reel) =>
      reelChain(tape, book, book.makeOfReel[reel]!, point, point.linearDensity[reel]!),
    )
    const makeOwnBlocks = makeTapes.map((tape, make) => reelChain(tape, book, make, point, 0))
    const makes = reelsOfMake.map((reels, make) => sumOfMake(blocks, makeOwnBlocks, reels, make))
    const shared = sharedPosterior(makes, book.coreValue.length)
    if (round >= rounds) {
      return {
        book,
        point,
        reelFacts,
        makeFacts,
        tapes,
        blocks,
        makeOwnBlocks,
        makes,
        reelsOfMake,
        shared,
      }
    }
    point = pointOf(book, blocks, shared)
  }
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

/** What was known at a time: the estimate from the facts up to and including it. */
export const shelfAsKnownAt = (
  { book, reelFacts, makeFacts }: ShelfEstimate,
  at: number,
  rounds = 2,
): ShelfEstimate => {
  const known = [...reelFacts, ...makeFacts].flatMap((list) => list.filter((fact) => fact.at <= at))
  return estimateShelf(book.catalogue, known, { priors: book.priors, rounds })
}

const renewed = (
  before: ShelfEstimate,
  reelFacts: readonly (readonly ShelfFact[])[],
  makeFacts: readonly (readonly ShelfFact[])[],
  reels: ReadonlySet<number>,
  touchedMakes: ReadonlySet<number>,
): ShelfEstimate => {
  const { book, point, reelsOfMake } = before
  const writer = new TapeWriter(book)
  const tapes = [...before.tapes]
  const blocks = [...before.blocks]
  const makeOwnBlocks = [...before.makeOwnBlocks]
  const makes = [...before.makes]
  const ordered = [...reelFacts]
  const orderedMakes = [...makeFacts]
  const stale = new Set(touchedMakes)
  for (const reel of reels) {
    const make = book.makeOfReel[reel]!
    ordered[reel] = inOrder(reelFacts[reel]!)
    const tape = writer.writeReel(ordered[reel], make)
    tapes[reel] = tape
    blocks[reel] = reelChain(tape, book, make, point, point.linearDensity[reel]!)
    stale.add(make)
  }
  for (const make of touchedMakes) {
    orderedMakes[make] = inOrder(makeFacts[make]!)
    makeOwnBlocks[make] = reelChain(
      writer.writeMake(orderedMakes[make], make),
      book,
      make,
      point,
      0,
    )
  }
  for (const make of stale) {
    makes[make] = sumOfMake(blocks, makeOwnBlocks, reelsOfMake[make]!, make)
  }
  return {
    ...before,
    reelFacts: ordered,
    makeFacts: orderedMakes,
    tapes,
    blocks,
    makeOwnBlocks,
    makes,
    shared: sharedPosterior(makes, book.coreValue.length),
  }
}

const sumOfMake = (
  blocks: readonly ReelBlock[],
  makeOwnBlocks: readonly ReelBlock[],
  reels: readonly number[],
  make: number,
): MakeBlock => makeBlock([makeOwnBlocks[make]!, ...reels.map((reel) => blocks[reel]!)])

const reelOf = (fact: ShelfFact, book: ShelfBook): number | undefined =>
  'reel' in fact && fact.reel !== undefined ? placeOf(book.reelAt, fact.reel, 'reel') : undefined

const makeOf = (fact: ShelfFact, book: ShelfBook): number =>
  placeOf(book.makeAt, 'make' in fact ? fact.make : '', 'make')

const listOf = (
  fact: ShelfFact,
  book: ShelfBook,
  reelFacts: ShelfFact[][],
  makeFacts: ShelfFact[][],
): ShelfFact[] => {
  const reel = reelOf(fact, book)
  return reel === undefined ? makeFacts[makeOf(fact, book)]! : reelFacts[reel]!
}

const inOrder = <T extends readonly ShelfFact[]>(facts: T): T | ShelfFact[] => {
  for (let i = 1; i < facts.length; i++) {
    if (facts[i]!.at < facts[i - 1]!.at) return facts.toSorted((a, b) => a.at - b.at)
  }
  return facts
}

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
