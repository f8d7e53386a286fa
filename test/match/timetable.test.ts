import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import type { Choice } from '../../src/match/choice.ts'
import { type CompiledSlate, compileSlate } from '../../src/match/compiled-slate.ts'
import { copyTimes } from '../../src/match/copy-times.ts'
import { timetableOf } from '../../src/match/timetable.ts'
import { bestTimes } from './every-plan.ts'
import { waitingSlate } from './random-slate.ts'
import { copyOf, exactPrinter, reelOf, slateOf } from './told-slate.ts'

/** Every copy somewhere, with some of the reels that fit, whatever they hold. */
const anyChoices = (random: SeededRandom, slate: CompiledSlate): readonly Choice[] => {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random.between(0, list.length))]!
  return slate.copies.map(({ printers, tasks }): Choice => {
    const printer = pick(printers)
    const taken: number[] = []
    const servings = tasks.map(({ whole, reels }) => {
      const reel = pick(reels.filter((each) => !taken.includes(each)))
      taken.push(reel)
      return { piece: whole.get(printer)!, reel }
    })
    return { printer, servings }
  })
}

/** The only choices there are. */
const onlyChoices = (slate: CompiledSlate): readonly Choice[] =>
  slate.copies.map(({ printers: [printer], tasks }): Choice => {
    const servings = tasks.map(({ whole, reels }) => ({
      piece: whole.get(printer!)!,
      reel: reels[0]!,
    }))
    return { printer: printer!, servings }
  })

describe('the timetable of some choices', () => {
  const seeds = Array.from({ length: 60 }, (_, i) => i + 1)
  it.each(seeds)('seed %i: no sequence of all copies over all printers is better', (seed) => {
    const random = new SeededRandom(seed)
    const slate = compileSlate(waitingSlate(random))
    const choices = anyChoices(random, slate)
    const { late, swaps, orders, sequence } = timetableOf(slate, choices)
    expect({ late: late.size, swaps }).toEqual(bestTimes(slate, choices))
    expect(orders.every(({ isLeast }) => isLeast)).toBe(true)
    expect(orders.reduce((sum, order) => sum + order.late, 0)).toBe(late.size)
    // The times that are shown are those that were counted, and each printer's order is that of the sequence.
    const times = copyTimes(slate, sequence)
    expect([...times].filter(([, time]) => time.late).map(([copy]) => copy)).toEqual(
      expect.arrayContaining([...late]),
    )
    for (const { printer, copies } of orders) {
      const own = sequence.filter(({ needs }) => needs[0] === printer)
      expect(own.map(({ copy }) => copy)).toEqual(copies)
    }
  })

  it.each([
    ['a', 'b'],
    ['b', 'a'],
  ])('does all with a reel before it goes to another printer, %s being named first', (...named) => {
    const slate = compileSlate(
      slateOf(
        ['hook', 'cleat', 'crate', 'shelf'].map((id, i) =>
          copyOf(id, 9, ['r'], { printers: [i % 2 === 0 ? 'a' : 'b'], duration_h: 1 + (i % 2) }),
        ),
        [reelOf('r', 900)],
        { printers: named.map((id) => exactPrinter(id, id === 'a' ? { loaded: { 0: 'r' } } : {})) },
      ),
    )
    const { swaps, sequence } = timetableOf(slate, onlyChoices(slate))
    expect(swaps).toBe(1)
    expect(sequence.map(({ copy }) => copy)).toEqual([0, 2, 1, 3])
  })

  it('counts a reel each time it comes back to a printer', () => {
    const slate = compileSlate(
      slateOf(
        ['a', 'b', 'a', 'b', 'a'].map((printer, i) =>
          copyOf(`copy ${i}`, 9, ['r'], { printers: [printer], duration_h: 1, due_h: i + 1 }),
        ),
        [reelOf('r', 900)],
        { printers: [exactPrinter('a', { loaded: { 0: 'r' } }), exactPrinter('b')] },
      ),
    )
    const { late, swaps, orders } = timetableOf(slate, onlyChoices(slate))
    expect({ late: late.size, swaps }).toEqual({ late: 0, swaps: 4 })
    expect(orders.map((order) => order.swaps)).toEqual([2, 2])
  })

  it('counts one late rather than put a reel on less, and shows the order that it counted', () => {
    // On b the hook waits for r; were it first there, s would be put on once only.
    const due = { duration_h: 2, due_h: 2 }
    const slate = compileSlate(
      slateOf(
        [
          copyOf('cleat', 9, ['r'], due),
          copyOf('hook', 9, ['r'], { printers: ['b'], duration_h: 2, due_h: 9 }),
          copyOf('crate', 9, ['s'], { printers: ['b'], ...due }),
        ],
        [reelOf('r', 900), reelOf('s', 900)],
        { printers: [exactPrinter('a'), exactPrinter('b', { loaded: { 0: 'r' } })] },
      ),
    )
    const { late, orders } = timetableOf(slate, onlyChoices(slate))
    expect(late.size).toBe(0)
    expect(orders[1]).toMatchObject({ copies: [2, 1], swaps: 2 })
  })
})
