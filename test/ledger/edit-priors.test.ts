import { expect, test } from 'vitest'
import { defaultShelfPriors, estimateShelf } from '../../src/estimate/index.ts'
import { editPriors, priorKeys } from '../../src/ledger/index.ts'

const keys = priorKeys()

test('every prior has a key, and every key a unit, a value and a source', () => {
  expect(keys.map(({ key }) => key)).toEqual(
    expect.arrayContaining([
      'feedFactor',
      'carrierKinds.plastic',
      'unknownTare.1000',
      'startOfOneDraw',
    ]),
  )
  const { unknownTare, carrierKinds, ...single } = defaultShelfPriors
  expect(keys).toHaveLength(
    unknownTare.length + Object.keys(carrierKinds).length + Object.keys(single).length,
  )
  expect(new Set(keys.map(({ key }) => key)).size).toBe(keys.length)
  for (const { prior } of keys) expect(prior.source.where).not.toBe('')
})

test.each(keys.map(({ key }) => key))(
  '%s can be changed, and nothing else changes with it',
  (key) => {
    const before = keys.find((one) => one.key === key)!.prior
    const next = { value: before.value * 0.9, u: before.u * 2 + 0.001 }
    const edited = editPriors(defaultShelfPriors, { [key]: next })
    expect(edited.ok).toBe(true)
    if (!edited.ok) return
    for (const now of priorKeys(edited.value)) {
      const was = keys.find((one) => one.key === now.key)!.prior
      if (now.key === key) {
        expect(now.prior).toMatchObject({ ...next, unit: was.unit })
        expect(now.prior.source.where).toBe('set for this shelf')
      } else expect(now.prior).toEqual(was)
    }
    expect(() =>
      estimateShelf({ makes: [{ id: 'a' }], printers: [], scales: [], reels: [] }, [], {
        priors: edited.value,
      }),
    ).not.toThrow()
  },
)

test('nothing changed is the same', () => {
  expect(editPriors(defaultShelfPriors, {})).toEqual({ ok: true, value: defaultShelfPriors })
})

test('lengths that are added may be none', () => {
  expect(editPriors(defaultShelfPriors, { startAllowance: { value: 0, u: 1 } }).ok).toBe(true)
})

test.each<readonly [string, string, { readonly value: number; readonly u: number }]>([
  ['prior_unknown', 'feedfactor', { value: 1, u: 0.1 }],
  ['prior_unknown', 'carrierKinds', { value: 1, u: 0.1 }],
  ['prior_unknown', 'unknownTare.0', { value: 1, u: 0.1 }],
  ['prior_unknown', 'toString', { value: 1, u: 0.1 }],
  ['prior_impossible', 'feedFactor', { value: 1, u: -0.1 }],
  ['prior_impossible', 'feedFactor', { value: 1, u: 0 }],
  ['prior_impossible', 'feedFactor', { value: 0, u: 0.1 }],
  ['prior_impossible', 'feedFactor', { value: -1, u: 0.1 }],
  ['prior_impossible', 'feedFactor', { value: Infinity, u: 0.1 }],
  ['prior_impossible', 'feedFactor', { value: 1, u: Number.NaN }],
  ['prior_impossible', 'packing', { value: 1.1, u: 0.1 }],
  ['prior_impossible', 'unknownTare.1000', { value: 0, u: 10 }],
])('%s: %s %o', (code, key, next) => {
  const edited = editPriors(defaultShelfPriors, { [key]: next })
  expect(edited).toMatchObject({ ok: false, refusal: { code } })
  if (!edited.ok && code === 'prior_unknown') {
    expect(edited.refusal.message).toContain('feedFactor')
    expect(edited.refusal.message).toContain('carrierKinds.plastic')
  }
})
