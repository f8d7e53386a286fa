import { expect, test } from 'vitest'
import { planGap } from '../../src/cli/plan-gap.ts'

const levels = [
  { level: 'unserved', importance: 1, value: 2, bound: 2 },
  { level: 'late', importance: null, value: 0, bound: 0 },
  { level: 'stubs', importance: null, value: 61.2, bound: 61 },
  { level: 'swaps', importance: null, value: 9, bound: 5.2 },
]

test('the first level that is not proven is told with what the best could have', () => {
  expect(planGap({ ended: 'time', proven: false, levels })).toBe(
    'The time ended the search: 9 reels to put on; the best could have 6.',
  )
  const unserved = levels.with(0, { ...levels[0]!, bound: 0 })
  expect(planGap({ ended: 'cancelled', proven: false, levels: unserved })).toBe(
    'You ended the search: 2 prints not served (importance 1); the best could have 0.',
  )
  const stubs = levels.with(2, { ...levels[2]!, bound: 12.4 })
  expect(planGap({ ended: 'done', proven: false, levels: stubs })).toBe(
    'The search ended early: 61 g left in stubs; the best could have 12 g.',
  )
})

test('a plan that is proven best, or as good as that, is said to be', () => {
  expect(planGap({ ended: 'done', proven: true, levels })).toBe('No plan is better.')
  expect(planGap({ ended: 'time', proven: false, levels: levels.slice(0, 3) })).toContain(
    'none is better by as much as a print, a reel or a gram',
  )
})
