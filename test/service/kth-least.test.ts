import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { kthLeast } from '../../src/service/kth-least.ts'

test('the same as of all in order', () => {
  const keys = fc.array(fc.oneof(fc.integer({ min: 0, max: 5 }), fc.double({ noNaN: true })), {
    minLength: 1,
    maxLength: 60,
  })
  fc.assert(
    fc.property(keys, fc.nat(), (some, place) => {
      const k = place % some.length
      // −0 and 0 are one key.
      const key = kthLeast(Float64Array.from(some), k)
      expect(key + 0).toBe(some.toSorted((a, b) => a - b)[k]! + 0)
    }),
  )
})
