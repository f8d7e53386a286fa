export { type AccuracyClass, maximumPermissibleError, scaleOfClass } from './accuracy-class.ts'
export { buoyancyFactor } from './buoyancy-factor.ts'
export { benchCaliper, type Caliper } from './caliper.ts'
export {
  crossSection,
  crossSectionOfPlaces,
  customaryScatter,
  type Scatter,
} from './cross-section.ts'
export { type Filler, filledDensity } from './filled-density.ts'
export { findMaterial } from './find-material.ts'
export { immersionDensity } from './immersion-density.ts'
export {
  densityFromCutLength,
  lengthOfMass,
  linearDensity,
  linearDensityFromCutLength,
  massOfLength,
} from './linear-density.ts'
export {
  type Drying,
  defaultDensity,
  dryingCautions,
  type Material,
  type Range,
  type WaterUptake,
} from './material.ts'
export { materials } from './materials.ts'
export { customaryPacking, nestedPacking, type Packing, stackedPacking } from './packing.ts'
export { kitchenScale, readingVariance, type Scale, weighingVariance } from './scale.ts'
export type { Source } from './source.ts'
export { waterDensity } from './water-density.ts'
export {
  type Hub,
  lengthOfWinding,
  massOfWinding,
  type Winding,
  windingDiameter,
} from './winding.ts'
