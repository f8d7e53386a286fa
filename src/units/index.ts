export { type Measured, measured } from './measured.ts'
export {
  type Celsius,
  celsius,
  type Grams,
  type GramsPerCubicCentimetre,
  type GramsPerMetre,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  type Millimetres,
  millimetres,
  type Quantity,
  type SquareMillimetres,
  squareMillimetres,
} from './quantity.ts'
export { accept, DomainError, type Outcome, type Refusal, refuse } from './refusal.ts'
