import { expect, test } from 'vitest'
import { readPrior } from '../../src/app/set-up/prior-value.ts'

test('a prior has its doubt with it, and either sign where it is a difference', () => {
  const usual = { value: -0.01, u: 0.02 }
  expect(readPrior('−0,02 ± 0.05', '1', usual)).toEqual({
    ok: true,
    value: { value: -0.02, u: 0.05 },
  })
})

test('what can be read in two ways is refused, not taken for the smaller', () => {
  const usual = { value: 1000, u: 10 }
  for (const typed of ['1,250 ± 30 g', '1250 ± 1,250 g']) {
    expect(readPrior(typed, 'g', usual)).toMatchObject({ refusal: { code: 'number_ambiguous' } })
  }
})
