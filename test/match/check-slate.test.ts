import { describe, expect, it, test } from 'vitest'
import { type MatchCopy, type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { copyOf, exactPrinter, reelOf, slateOf } from './told-slate.ts'

const asked = (copy: Partial<MatchCopy>, slate: Partial<MatchSlate> = {}): MatchSlate =>
  slateOf([copyOf('hook', 50, ['r'], copy)], [reelOf('r', 200)], slate)

describe('figures that no slate can have are refused', () => {
  test.each<readonly [string, MatchSlate]>([
    ['hours_out_of_range', asked({ due_h: Number.NaN })],
    ['hours_out_of_range', asked({ duration_h: Number.NaN })],
    ['hours_out_of_range', asked({ duration_h: -2 })],
    ['hours_out_of_range', asked({ duration_h: Infinity })],
    ['importance_not_finite', asked({ importance: Number.NaN })],
    ['hours_out_of_range', asked({}, { printers: [exactPrinter('a', { free_h: -3 })] })],
    ['hours_out_of_range', asked({}, { printers: [exactPrinter('a', { free_h: Number.NaN })] })],
    ['useful_negative', asked({}, { useful_g: Number.NaN })],
    ['confidence_out_of_range', asked({}, { confidence: Number.NaN })],
    ['changes_not_positive', asked({ changes: { most: 1.5 } })],
    [
      'length_negative',
      asked({ tasks: [{ tool: 0, draw: [{ weight: 1, peak_mm: -1 }], fits: ['r'] }] }),
    ],
  ])('%s', async (code, slate) => {
    await expect(matchSlate(slate)).rejects.toMatchObject({ code })
  })

  it('what was due before now is late', async () => {
    const plan = await matchSlate(asked({ due_h: -1, duration_h: 1 }))
    expect(plan.served[0]?.late).toBe(true)
  })
})
