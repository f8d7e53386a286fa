import { placeOf, type ShelfBook } from './shelf-book.ts'
import type { ShelfFact } from './shelf-facts.ts'
import { type Tape, TapeWriter } from './shelf-tape.ts'
import { TapeRoom, TapeSize } from './tape-room.ts'

/** The facts of each reel, and those of each make that concern no reel, in order of time, with their tapes. */
export interface Dealt {
  readonly reelFacts: readonly (readonly ShelfFact[])[]
  readonly makeFacts: readonly (readonly ShelfFact[])[]
  readonly tapes: readonly Tape[]
  readonly makeTapes: readonly Tape[]
}

/** The place of the reel that a fact concerns, if it concerns one. @throws DomainError `unknown_id` */
export const reelOf = (fact: ShelfFact, book: ShelfBook): number | undefined =>
  'reel' in fact && fact.reel !== undefined ? placeOf(book.reelAt, fact.reel, 'reel') : undefined

/** The place of the make that a fact of no reel concerns. @throws DomainError `unknown_id` */
export const makeOf = (fact: ShelfFact, book: ShelfBook): number =>
  placeOf(book.makeAt, 'make' in fact ? fact.make : '', 'make')

/** Facts in order of time, those of equal time as they stood. */
export const inOrder = (facts: readonly ShelfFact[]): readonly ShelfFact[] => {
  for (let i = 1; i < facts.length; i++) {
    if (facts[i]!.at < facts[i - 1]!.at) return facts.toSorted((a, b) => a.at - b.at)
  }
  return facts
}

/**
 * Deals the facts to their reels and makes and writes their tapes.
 *
 * The facts are gone through twice as they come, and only those of a reel whose order is not that of time once
 * more: reel by reel they would be fetched from all over the memory, which takes longer than all that is reckoned.
 *
 * @throws DomainError `unknown_id`, `opened_not_first`, `impossible_fact`
 */
export const dealt = (book: ShelfBook, facts: Iterable<ShelfFact>): Dealt => {
  const all: readonly ShelfFact[] = Array.isArray(facts) ? facts : Array.from(facts)
  const reels = book.makeOfReel.length
  const sizes = Array.from({ length: reels + book.makes.length }, () => new TapeSize())
  const owner = new Int32Array(all.length)
  for (let i = 0; i < all.length; i++) {
    const fact = all[i]!
    owner[i] = reelOf(fact, book) ?? reels + makeOf(fact, book)
    sizes[owner[i]!]!.add(fact)
  }
  const room = new TapeRoom(sizes)
  const hands = sizes.map((size, place) => {
    const isReel = place < reels
    const make = isReel ? book.makeOfReel[place]! : place - reels
    return new Hand(size.facts, new TapeWriter(book, make, isReel, room, size))
  })
  for (let i = 0; i < all.length; i++) hands[owner[i]!]!.take(all[i]!)
  const tapes = hands.map((hand) => hand.tape())
  const lists = hands.map((hand) => hand.facts)
  return {
    reelFacts: lists.slice(0, reels),
    makeFacts: lists.slice(reels),
    tapes: tapes.slice(0, reels),
    makeTapes: tapes.slice(reels),
  }
}

/** What one reel, or one make, is dealt. */
class Hand {
  facts: readonly ShelfFact[]
  readonly #taken: ShelfFact[]
  readonly #writer: TapeWriter
  #count = 0
  #last = -Infinity
  #isInOrder = true

  constructor(count: number, writer: TapeWriter) {
    this.#taken = Array.from({ length: count })
    this.facts = this.#taken
    this.#writer = writer
  }

  take(fact: ShelfFact): void {
    this.#taken[this.#count++] = fact
    if (fact.at < this.#last) this.#isInOrder = false
    this.#last = fact.at
    if (this.#isInOrder) this.#writer.write(fact)
  }

  tape(): Tape {
    if (!this.#isInOrder) {
      this.facts = inOrder(this.#taken)
      this.#writer.begin()
      for (const fact of this.facts) this.#writer.write(fact)
    }
    return this.#writer.tape()
  }
}
