/**
 * Lengths of filament are counted in whole picometres, so that adding them up is exact: E words of up
 * to nine decimals lie on this grid, and sums stay exact to 9 km. The same numbers then come out
 * whatever the order in which parts of a file are added up.
 */
export const picometresPerMm = 1e9

/** Whole picometres nearest to a number of them, halves upwards: as core/plain-lines.ts rounds. */
export const wholePicometres = (length: number): number => Math.floor(length + 0.5)

/** mm → whole picometres. */
export const toPicometres = (mm: number): number => wholePicometres(mm * picometresPerMm)

/** Picometres → mm. */
export const fromPicometres = (length: number): number => length / picometresPerMm
