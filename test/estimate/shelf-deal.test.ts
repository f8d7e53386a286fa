import { expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { defaultShelfPriors } from '../../src/estimate/index.ts'
import { shelfBook } from '../../src/estimate/shelf-book.ts'
import { dealt } from '../../src/estimate/shelf-deal.ts'
import { tapeOfMake, tapeOfReel } from '../../src/estimate/shelf-tape.ts'
import { randomShelf } from './random-shelf.ts'

it.each(Array.from({ length: 20 }, (_, seed) => [500 + seed]))(
  'deals the facts of shelf %i in any order to the tapes that each reel and make has alone',
  (seed) => {
    const random = new SeededRandom(seed)
    const { catalogue, facts: told } = randomShelf(random)
    const facts = told.map((fact, at) => Object.assign(fact, { at }))
    const book = shelfBook(catalogue, defaultShelfPriors)
    const shuffled = facts
      .map((fact) => ({ fact, key: random.uniform() }))
      .toSorted((a, b) => a.key - b.key)
      .map(({ fact }) => fact)
    const hands = dealt(book, facts)
    expect(dealt(book, new Set(shuffled))).toEqual(hands)
    for (const [reel, its] of hands.reelFacts.entries()) {
      expect(its).toEqual(
        facts.filter((fact) => 'reel' in fact && fact.reel === catalogue.reels[reel]!.id),
      )
      expect(hands.tapes[reel]).toEqual(tapeOfReel(book, its, book.makeOfReel[reel]!))
    }
    for (const [make, its] of hands.makeFacts.entries()) {
      expect(hands.makeTapes[make]).toEqual(tapeOfMake(book, its, make))
    }
  },
)
