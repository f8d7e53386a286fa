import { expect, test } from 'vitest'
import { readPrior, showPrior } from '../../src/app/set-up/prior-value.ts'

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

test('who chose ounces sets a prior in ounces; the ledger has it in grams', () => {
  const usual = { value: 215, u: 45 }
  expect(showPrior(usual, 'g', 'oz')).toBe('7.584 ± 1.587 oz')
  for (const typed of ['8 ± 1', '8 ± 1 oz', '226.796 ± 28.3495 g']) {
    const read = readPrior(typed, 'g', usual, 'oz')
    if (!read.ok) throw new Error(read.refusal.message)
    expect(read.value.value, typed).toBeCloseTo(226.796, 3)
    expect(read.value.u, typed).toBeCloseTo(28.3495, 3)
  }
  // What is no mass is not in ounces.
  expect(showPrior({ value: 0.5, u: 0.1 }, 'mm', 'oz')).toBe('0.5 ± 0.1 mm')
  expect(readPrior('5 ± 1', 'mm', usual, 'oz')).toEqual({ ok: true, value: { value: 5, u: 1 } })
})
