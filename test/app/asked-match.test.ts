import { expect, test } from 'vitest'
import { asItIs, requestOfAsked } from '../../src/app/slate/asked-match.ts'
import { matchRequest } from '../../src/contract/index.ts'

test('what runs is not told: the server knows it', () => {
  const request = requestOfAsked(asItIs)
  expect(request).toEqual({ confidence: 0.95 })
  expect(matchRequest.parse(request)).toEqual(request)
})
