import { expect, test } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { waitingSlate } from './random-slate.ts'
import { copyOf, exactPrinter, reelOf, slateOf } from './told-slate.ts'

const putsOf = async (slate: MatchSlate) => {
  const { served } = await matchSlate(slate)
  return Object.fromEntries(
    served.map(({ copy, waitsFor, waitsAt, putsOn }) => [
      copy,
      { waitsFor, waitsAt, putsOn: putsOn.map(({ reel, off, from }) => ({ reel, off, from })) },
    ]),
  )
}

test('what is put on, what comes off for it, and from which printer it comes, is told', async () => {
  const copies = [
    copyOf('hook', 10, ['r'], { duration_h: 2, due_h: 2, printers: ['b'] }),
    copyOf('cleat', 10, ['r'], { duration_h: 1, due_h: 5 }),
    copyOf('knob', 10, ['s'], { duration_h: 1, due_h: 9, printers: ['b'] }),
  ]
  const printers = [
    exactPrinter('a', { loaded: { 0: 'x' } }),
    exactPrinter('b', { loaded: { 0: 'r' } }),
  ]
  const reels = [reelOf('r', 100), reelOf('s', 100), reelOf('x', 5)]
  expect(await putsOf(slateOf(copies, reels, { printers }))).toEqual({
    hook: { waitsFor: null, waitsAt: null, putsOn: [] },
    cleat: { waitsFor: 'r', waitsAt: 'b', putsOn: [{ reel: 'r', off: 'x', from: 'b' }] },
    // The reel that was on has gone to the other printer.
    knob: { waitsFor: null, waitsAt: null, putsOn: [{ reel: 's', off: null, from: null }] },
  })
})

test('a copy that waits for what runs elsewhere is told where', async () => {
  const running = [{ tool: 0, reel: 'r', draw: [{ weight: 1, peak_mm: 20_000 }] }]
  const printers = [exactPrinter('a'), exactPrinter('b', { free_h: 4, running })]
  const slate = slateOf([copyOf('hook', 10, ['r'])], [reelOf('r', 100)], { printers })
  expect(await putsOf(slate)).toEqual({
    hook: { waitsFor: 'r', waitsAt: 'b', putsOn: [{ reel: 'r', off: null, from: 'b' }] },
  })
})

test('what is put on for the copies of a printer is what is counted as put on there', async () => {
  for (let seed = 1; seed <= 60; seed++) {
    // oxlint-disable-next-line no-await-in-loop -- small ones, without a solver
    const { served, orders } = await matchSlate(waitingSlate(new SeededRandom(seed)))
    for (const { printer, swaps } of orders) {
      const puts = served.filter((each) => each.printer === printer).map(({ putsOn }) => putsOn)
      expect([seed, printer, puts.flat().length]).toEqual([seed, printer, swaps])
    }
  }
})
