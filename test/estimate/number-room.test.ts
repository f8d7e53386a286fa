import { expect, it } from 'vitest'
import { NumberRoom } from '../../src/estimate/number-room.ts'

it('hands out arrays of zeros that do not overlap, again after all were taken back', () => {
  const room = new NumberRoom()
  for (let round = 0; round < 2; round++) {
    const parts = Array.from({ length: 300 }, (_, i) => room.take(i % 7))
    for (const [i, part] of parts.entries()) {
      expect(part).toEqual(new Float64Array(i % 7))
      part.fill(i + 1)
    }
    for (const [i, part] of parts.entries()) {
      expect(part).toEqual(new Float64Array(i % 7).fill(i + 1))
    }
    room.clear()
  }
})
