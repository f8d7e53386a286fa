import { describe, expect, it } from 'vitest'
import {
  contradictions,
  estimateShelf,
  type ShelfCatalogue,
  type ShelfFact,
  withoutWeighing,
} from '../../src/estimate/index.ts'
import { kitchenScale } from '../../src/filament/index.ts'
import { grams } from '../../src/units/index.ts'

const catalogue: ShelfCatalogue = {
  makes: [
    { id: 'quay', material: 'PLA' },
    { id: 'mole', material: 'PLA' },
  ],
  printers: [{ id: 'gull' }],
  scales: [{ id: 'galley', scale: kitchenScale }],
  reels: [
    { id: 'first', make: 'quay' },
    { id: 'second', make: 'quay' },
    { id: 'other', make: 'mole' },
  ],
}
const weighed = (id: string, at: number, reel: string, reading: number): ShelfFact => {
  return { kind: 'weighed', id, at, reel, scale: 'galley', reading: grams(reading) }
}
const opened = (reel: string, gross?: number): ShelfFact => ({
  kind: 'opened',
  id: `open ${reel}`,
  at: 0,
  reel,
  labelNet: grams(1000),
  ...(gross !== undefined && { grossWhenNew: { scale: 'galley', reading: grams(gross) } }),
})

const empty = (id: string, reel: string, reading: number): ShelfFact => {
  const what = { kind: 'carrier-weighed', make: 'quay', scale: 'galley' } as const
  return { ...what, id, at: 3, reel, reading: grams(reading) }
}

describe('contradictions of a make', () => {
  it('none where readings agree as far as they can', () => {
    const facts = [opened('first', 1243), weighed('a', 1, 'first', 1242)]
    expect(contradictions(estimateShelf(catalogue, facts), 'quay')).toEqual([])
  })

  it('an early slip, once a reading made twice has shown it', () => {
    const facts = [
      opened('first'),
      // Something of 90 g stood on the scale: with a carrier unknown to 60 g nothing strange.
      weighed('early', 1, 'first', 1333),
      weighed('twice', 2, 'first', 1243),
      weighed('twice again', 2, 'first', 1243),
    ]
    const [worst] = contradictions(estimateShelf(catalogue, facts), 'quay')
    expect(worst?.fact.id).toBe('early')
    expect(worst?.surprise.off).toBeGreaterThan(30)
    const after = withoutWeighing(estimateShelf(catalogue, facts), 'early')
    expect(contradictions(after, 'quay')).toEqual([])
  })

  it('a mass when new, of another reel of the make', () => {
    const facts = [
      opened('first', 1380),
      opened('second', 1243),
      weighed('a', 1, 'first', 1245),
      weighed('b', 2, 'first', 1244),
    ]
    const estimate = estimateShelf(catalogue, facts)
    const [worst] = contradictions(estimate, 'quay')
    expect(worst?.fact.id).toBe('open first')
    expect(contradictions(estimate, 'mole')).toEqual([])
    expect(contradictions(withoutWeighing(estimate, 'open first'), 'quay')).toEqual([])
  })

  it('an empty carrier that does not go with its reel when new, and the reel where that is off', () => {
    const others = [opened('second', 1243), empty('own', 'second', 241)]
    const found = (gross: number, carrier: number): readonly string[] => {
      const facts = [opened('first', gross), empty('carrier', 'first', carrier), ...others]
      return contradictions(estimateShelf(catalogue, facts), 'quay').map(({ fact }) => fact.id)
    }
    expect(found(1240, 240)).toEqual([])
    expect(found(1240, 640)[0]).toBe('carrier')
    expect(found(1640, 240)[0]).toBe('open first')
    // With nothing weighed when new it may be a carrier of another kind.
    const alone = [opened('first'), empty('carrier', 'first', 640), ...others]
    expect(contradictions(estimateShelf(catalogue, alone), 'quay')).toEqual([])
  })

  it('names a make that is not there', () => {
    expect(() => contradictions(estimateShelf(catalogue, []), 'pier')).toThrow('there is no make')
  })
})
