import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { cellSpans } from '../../src/cli/trough-cells.ts'

describe('bars in cells', () => {
  it('lie to scale', () => {
    expect(cellSpans([3, 2.4, 4.6], 12)).toEqual([
      { from: 0, to: 3 },
      { from: 3, to: 5 },
      { from: 5, to: 10 },
    ])
  })

  it('show each, where several are too short for a cell', () => {
    // Both of the first used to fall into one cell, and one of them was not drawn.
    expect(cellSpans([0.4, 0.4, 5], 12)).toEqual([
      { from: 0, to: 1 },
      { from: 1, to: 2 },
      { from: 2, to: 6 },
    ])
    expect(cellSpans([11.4, 0.2, 0.2], 12)).toEqual([
      { from: 0, to: 10 },
      { from: 10, to: 11 },
      { from: 11, to: 12 },
    ])
  })

  it('follow one another within the scale, each with a cell, while there are enough', () => {
    const lengths = fc.array(fc.double({ min: 0, max: 20, noNaN: true }), { maxLength: 46 })
    fc.assert(
      fc.property(lengths, (bars) => {
        let end = 0
        for (const { from, to } of cellSpans(bars, 46)) {
          expect(from).toBeGreaterThanOrEqual(end)
          expect(to).toBeGreaterThan(from)
          end = to
        }
        expect(end).toBeLessThanOrEqual(46)
      }),
    )
  })
})
