declare const unit: unique symbol

/** A finite number that carries its unit in the type. `U` is one of the unit marks below. */
export type Quantity<U extends symbol> = number & { readonly [unit]: U }

declare const gram: unique symbol
declare const millimetre: unique symbol
declare const squareMillimetre: unique symbol
declare const gramPerCubicCentimetre: unique symbol
declare const gramPerMetre: unique symbol
declare const degreeCelsius: unique symbol
declare const fraction: unique symbol

/** Mass. */
export type Grams = Quantity<typeof gram>
/** Length; metres appear only at the edge, in parsing and printing. */
export type Millimetres = Quantity<typeof millimetre>
/** Cross-section. */
export type SquareMillimetres = Quantity<typeof squareMillimetre>
/** Density, g/cm³. */
export type GramsPerCubicCentimetre = Quantity<typeof gramPerCubicCentimetre>
/** Linear density, g/m. */
export type GramsPerMetre = Quantity<typeof gramPerMetre>
/** Temperature, °C. */
export type Celsius = Quantity<typeof degreeCelsius>
/** Share of a whole, 0 to 1; percent appears only at the edge, in parsing and printing. */
export type Share = Quantity<typeof fraction>

// oxlint-disable-next-line typescript/no-unsafe-type-assertion -- the one place where a number gets its unit
const mark = <U extends symbol>(value: number): Quantity<U> => value as Quantity<U>

/** Marks a plain number as grams. */
export const grams = (value: number): Grams => mark(value)
/** Marks a plain number as millimetres. */
export const millimetres = (value: number): Millimetres => mark(value)
/** Marks a plain number as mm². */
export const squareMillimetres = (value: number): SquareMillimetres => mark(value)
/** Marks a plain number as g/cm³. */
export const gramsPerCubicCentimetre = (value: number): GramsPerCubicCentimetre => mark(value)
/** Marks a plain number as g/m. */
export const gramsPerMetre = (value: number): GramsPerMetre => mark(value)
/** Marks a plain number as °C. */
export const celsius = (value: number): Celsius => mark(value)
/** Marks a plain number as a share of a whole. */
export const share = (value: number): Share => mark(value)
