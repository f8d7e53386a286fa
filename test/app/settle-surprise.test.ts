import { expect, test } from 'vitest'
import { type SurpriseAnswer, settleSurprise } from '../../src/app/weighing/settle-surprise.ts'
import type { WeighRequest } from '../../src/contract/index.ts'

const pound = 453.59237

/** What goes out where a person says so of a weighing that was posted. */
const settled = (told: WeighRequest, said: SurpriseAnswer): WeighRequest | null => {
  let posted: WeighRequest | null = null
  const post = (one: WeighRequest): void => {
    posted = one
  }
  settleSurprise({ told, post, take: () => post({ ...told, accept: true }) }, said)
  return posted
}

const asGrams: WeighRequest = {
  id: 'one',
  reel: 'GQWGD',
  weighing: { reading_g: 0.9, last_place_g: 0.1, scale: 'XGDS3' },
}

test('pounds that were typed as grams are as fine as a tenth of a pound', () => {
  const inPounds = settled(asGrams, { kind: 'figure', reading_g: 0.9 * pound })
  expect(inPounds).toMatchObject({ ...asGrams, weighing: { scale: 'XGDS3' } })
  expect(inPounds?.weighing.reading_g).toBeCloseTo(0.9 * pound, 9)
  expect(inPounds?.weighing.last_place_g).toBeCloseTo(0.1 * pound, 9)
})

test('a doubt that was stated is in the same unit', () => {
  const told = { ...asGrams, weighing: { reading_g: 15, u_g: 0.5 } }
  expect(settled(told, { kind: 'figure', reading_g: 30 })?.weighing).toEqual({
    reading_g: 30,
    u_g: 1,
  })
})

test('after a cause was pressed, what is taken is what was posted for it', () => {
  const ofOther = settled(asGrams, { kind: 'reel', reel: 'REYRT' })
  expect(ofOther).toEqual({ ...asGrams, reel: 'REYRT' })
  expect(settled(ofOther!, { kind: 'take' })).toEqual({ ...asGrams, reel: 'REYRT', accept: true })
})
