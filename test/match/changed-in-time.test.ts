import { expect, it } from 'vitest'
import { matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { copyOf, layered, reelOf, slateOf } from './told-slate.ts'

/** Both need the one large reel at once, unless the buoy is changed in mid-print. */
const slate = slateOf(
  [
    copyOf('fender', 220, ['large'], { printers: ['a'], duration_h: 2, due_h: 3 }),
    copyOf('buoy', 150, [], {
      tasks: [{ tool: 0, draw: [layered(150, 10)], fits: ['large', 'one', 'two'] }],
      printers: ['b'],
      duration_h: 2,
      due_h: 3,
      changes: {},
    }),
  ],
  [reelOf('large', 900), reelOf('one', 145), reelOf('two', 147)],
)

it.each([
  ['by rules of thumb', {}],
  ['with a solver', { solver: highsSolver() }],
])('plans a change rather than a late print, %s', async (_, options) => {
  const { levels, served } = await matchSlate(slate, options)
  const valueOf = (at: string): number => levels.find(({ level }) => level === at)!.value
  expect(valueOf('unserved')).toBe(0)
  expect(valueOf('late')).toBe(0)
  expect(valueOf('changes')).toBe(1)
  const buoy = served.find(({ copy }) => copy === 'buoy')!
  expect(buoy.duties.map(({ reel }) => reel).toSorted()).toEqual(['one', 'two'])
})
