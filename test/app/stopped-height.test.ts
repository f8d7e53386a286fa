import { expect, test } from 'vitest'
import { stoppedHeight } from '../../src/app/running/stopped-height.ts'

const layers = { spiral: false, height_mm: [0.2, 0.4, 0.6], share: [0.5, 0.8, 1] }

test.each([
  [{ layer: 2 }, 0.4],
  [{ layer: 9 }, 0.6],
  [{ height_mm: 0.5 }, 0.5],
  [{ share: 0.3 }, 0.2],
  [{ share: 0.6 }, 0.4],
  [{ share: 1 }, 0.6],
])('%j is %s mm high', (stopped, height) => {
  expect(stoppedHeight(layers, stopped)).toBe(height)
})

test('nothing is drawn where nothing is told, or no layer is known', () => {
  expect(stoppedHeight(layers, null)).toBeNull()
  expect(stoppedHeight({ ...layers, height_mm: [], share: [] }, { share: 0.5 })).toBeNull()
})
