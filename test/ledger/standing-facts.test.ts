import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FactJson, PutRightJson } from '../../src/contract/index.ts'
import { standingFacts } from '../../src/ledger/index.ts'
import { fact, grey, putRight, weighed } from './bench-records.ts'

const standing = (facts: readonly FactJson[]): readonly string[] =>
  standingFacts(facts).facts.map(({ id }) => id)

const a = weighed(1, 400)
const b = weighed(2, 500)

test('without a put-right all hold', () => {
  expect(standingFacts([b, a])).toEqual({ facts: [b, a], voided: new Map() })
})

test('a put-right voids one, and is no fact of a reel itself', () => {
  const right = putRight(3, a.id)
  expect(standingFacts([a, b, right])).toEqual({ facts: [b], voided: new Map([[a.id, right]]) })
})

describe('a put-right of a put-right', () => {
  // Each puts the one before it right; the first voids `a`.
  const chain: PutRightJson[] = []
  for (let i = 0; i < 9; i++) chain.push(putRight(3 + i, chain.at(-1)?.id ?? a.id))

  test.each(chain.map((_, i) => i))('%i times over', (times) => {
    const facts = [a, b, ...chain.slice(0, times)]
    expect(standing(facts)).toEqual(times % 2 === 0 ? [a.id, b.id] : [b.id])
  })

  test('whatever the order of the lines', () => {
    const order = fc.shuffledSubarray([a, b, ...chain], { minLength: chain.length + 2 })
    fc.assert(
      fc.property(order, (facts) => {
        expect(new Set(standing(facts))).toEqual(new Set([b.id]))
      }),
    )
  })

  test('ten thousand of them', () => {
    const long: PutRightJson[] = []
    for (let i = 0; i < 3000; i++) long.push(putRight(3, long.at(-1)?.id ?? a.id))
    expect(standing([a, b, ...long])).toEqual([a.id, b.id])
  })
})

describe('what holds instead', () => {
  test('holds while the put-right does', () => {
    const right = putRight(3, a.id, b.id)
    expect(standing([a, b, right])).toEqual([b.id])
  })
  test('falls with it where they were written down together', () => {
    const instead = fact(1, { kind: 'emptied', reel: grey } as const, 3)
    const right = putRight(3, a.id, instead.id)
    const back = putRight(4, right.id)
    const found = standingFacts([a, instead, right, back])
    expect(found.facts).toEqual([a])
    expect(found.voided.get(instead.id)).toBe(back)
    expect(standing([a, instead, right, back, putRight(5, back.id)])).toEqual([instead.id])
  })
  test('stays where it had been there before', () => {
    const right = putRight(3, a.id, b.id)
    expect(standing([a, b, right, putRight(4, right.id)])).toEqual([a.id, b.id])
  })
  test('can be put right in turn', () => {
    const c = weighed(3, 600)
    const first = putRight(3, a.id, b.id)
    expect(standing([a, b, c, first, putRight(4, b.id, c.id)])).toEqual([c.id])
  })
})

test('put right twice, it is void while either holds', () => {
  const [first, second] = [putRight(3, a.id), putRight(4, a.id)]
  expect(standing([a, first, second])).toEqual([])
  expect(standing([a, first, second, putRight(5, first.id)])).toEqual([])
  expect(standing([a, first, second, putRight(5, first.id), putRight(6, second.id)])).toEqual([
    a.id,
  ])
})

describe('what nobody would write by hand', () => {
  test('two that void each other: the last holds', () => {
    const first = putRight(3, a.id)
    const last: PutRightJson = { ...putRight(4, first.id) }
    const circle: PutRightJson = { ...first, voids: last.id }
    expect(standing([a, circle, last])).toEqual([a.id])
    const found = standingFacts([a, circle, last])
    expect([...found.voided.keys()]).toEqual([circle.id])
  })
  test('one that voids itself voids nothing else', () => {
    const self = putRight(3, a.id)
    expect(standing([a, { ...self, voids: self.id }])).toEqual([a.id])
  })
  test('one that voids what is not there', () => {
    expect(standing([a, putRight(3, b.id)])).toEqual([a.id])
  })
})
