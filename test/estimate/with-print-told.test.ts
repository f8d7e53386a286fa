import { describe, expect, it } from 'vitest'
import {
  covarianceOf,
  estimateShelf,
  marginal,
  shelfBelief,
  withPrintTold,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams, measured, millimetres } from '../../src/units/index.ts'

const belief = shelfBelief(
  estimateShelf(
    {
      makes: [{ id: 'quay', material: 'PLA' }],
      printers: [{ id: 'gull' }],
      scales: [{ id: 'galley', scale: kitchenScale }],
      reels: [{ id: 'first', make: 'quay' }],
    },
    [
      { kind: 'opened', id: 'f1', at: 1, reel: 'first', labelNet: grams(1000) },
      { kind: 'weighed', id: 'f2', at: 2, reel: 'first', scale: 'galley', reading: grams(1230) },
      { kind: 'drew', id: 'f3', at: 3, reel: 'first', printer: 'gull', length: millimetres(9e4) },
    ],
  ),
  'first',
  { printer: 'gull' },
)
const learnt = belief.nextPrint!

describe('withPrintTold', () => {
  it('takes what is told, and leaves the rest jointly with the reel', () => {
    const told = withPrintTold(belief, { startAllowance: measured(millimetres(100), 5) })
    const { joint, net, nextPrint } = told
    expect(marginal(joint, nextPrint!.startAllowance)).toEqual({ value: 100, u: 5 })
    expect(covarianceOf(joint, net, nextPrint!.startAllowance)).toBe(0)
    const between = covarianceOf(belief.joint, belief.net, learnt.feedFactor)
    expect(between).toBeLessThan(-0.01)
    expect(covarianceOf(joint, net, nextPrint!.feedFactor)).toBe(between)
    expect(marginal(joint, told.linearDensity)).toEqual(
      marginal(belief.joint, belief.linearDensity),
    )
  })

  it('takes a feed factor in every stand-in, and assumes none', () => {
    const doubted = { ...belief, standIns: [{ weight: 1, of: belief.joint }] }
    const told = withPrintTold(doubted, { feedFactor: measured(1.08, 0.005) })
    expect(marginal(told.joint, told.nextPrint!.meanFeedFactor).value).toBe(1.08)
    expect(told.standIns).toHaveLength(1)
    for (const { of } of told.standIns!) {
      expect(marginal(of, told.nextPrint!.feedFactor).value).toBe(1.08)
    }
    const ids = new Set(told.assumed.map(({ id }) => id))
    expect(belief.assumed.map(({ id }) => id)).toContain('feed_factor')
    expect([ids.has('feed_factor'), ids.has('start_allowance')]).toEqual([false, true])
  })

  it('is the belief itself where nothing is told, or no printer is in it', () => {
    expect(withPrintTold(belief, {})).toBe(belief)
    const { nextPrint: _, ...alone } = belief
    expect(withPrintTold(alone, { feedFactor: measured(1.08) })).toBe(alone)
  })
})
