import { expect, it } from 'vitest'
import { filledDensity } from '../../src/filament/index.ts'
import { gramsPerCubicCentimetre, measured, share } from '../../src/units/index.ts'

// Rule of specific volumes read second-hand on composite pages; filler densities from memory;
// values recomputed for a matrix of 1.24 g/cm³.
it.each([
  ['15 % carbon fibre', 0.15, 1.78, 1.2991],
  ['20 % bronze', 0.2, 8.8, 1.4973],
  ['80 % bronze', 0.8, 8.8, 3.9651],
  ['30 % wood cell wall', 0.3, 1.5, 1.308],
])('%s without voids', (_name, part, filler, density) => {
  const { value } = filledDensity(measured(gramsPerCubicCentimetre(1.24)), [
    { share: measured(share(part)), density: measured(gramsPerCubicCentimetre(filler)) },
  ])
  expect(value).toBeCloseTo(density, 4)
})
