import { describe, expect, it } from 'vitest'
import {
  earlierAtFault,
  estimateShelf,
  type ReelWeighed,
  type ShelfCatalogue,
  type ShelfFact,
  weighingSurprise,
  withoutWeighing,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [{ id: 'quay', material: 'PETG' }],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: ['first', 'second', 'third'].map((id) => ({ id, make: 'quay' })),
}
const weighed = (id: string, at: number, reel: string, reading: number): ReelWeighed => ({
  kind: 'weighed',
  id,
  at,
  reel,
  scale: 'galley',
  reading: grams(reading),
})
const opened = (reel: string): ShelfFact => ({
  kind: 'opened',
  id: `open ${reel}`,
  at: 0,
  reel,
  labelNet: grams(1000),
})
const ids = (facts: readonly ShelfFact[], seen: readonly ReelWeighed[]): readonly string[] =>
  earlierAtFault(estimateShelf(catalogue, facts), seen).map(({ fact }) => fact.id)

describe('the earlier weighing at fault', () => {
  // 90 g too much on a carrier known to 60 g surprised nobody.
  const slipped = [opened('first'), opened('second'), weighed('early', 1, 'first', 1333)]
  const right = weighed('now', 2, 'first', 1243)

  it('is one without which a right reading would not surprise', () => {
    expect(ids(slipped, [right])).toEqual(['early'])
    expect(ids(slipped, [right, { ...right, id: 'again' }])).toEqual(['early'])
    const estimate = estimateShelf(catalogue, slipped)
    expect(weighingSurprise(estimate, right).surprising).toBe(true)
    expect(weighingSurprise(withoutWeighing(estimate, 'early'), right).surprising).toBe(false)
  })

  it('may be of another reel of the make', () => {
    expect(ids(slipped, [weighed('now', 2, 'second', 1243)])).toEqual(['early'])
  })

  it('is none where nothing surprises', () => {
    expect(ids(slipped, [weighed('now', 2, 'first', 1333)])).toEqual([])
    expect(earlierAtFault(estimateShelf(catalogue, slipped), [])).toEqual([])
  })

  it('is none where several agree that the new one is the wrong one', () => {
    const agreeing = [
      ...catalogue.reels.map(({ id }) => opened(id)),
      weighed('a', 1, 'first', 1243),
      weighed('b', 1, 'second', 1245),
      weighed('c', 1, 'third', 1241),
    ]
    expect(ids(agreeing, [weighed('now', 2, 'second', 1345)])).toEqual([])
  })

  it('names a reel that is not there', () => {
    const estimate = estimateShelf(catalogue, slipped)
    expect(() => earlierAtFault(estimate, [{ ...right, reel: 'x' }])).toThrow('there is no reel')
  })
})
