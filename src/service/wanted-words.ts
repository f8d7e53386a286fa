import type { CatalogueRowJson, WaitingToolJson } from '../contract/index.ts'
import { materialName } from './material-name.ts'

/**
 * What a tool wants in words: `PLA, red or blue`, `PLA, from reel K7RMY only`; `any filament` where it is all
 * the same.
 */
export const wantedWords = (
  rows: readonly CatalogueRowJson[],
  { material, colours, diameter_mm, reel }: Partial<WaitingToolJson>,
): string => {
  const parts = [
    ...(material === undefined ? [] : [materialName(rows, material)]),
    ...(colours === undefined ? [] : [orList(colours)]),
    ...(diameter_mm === undefined ? [] : [`${diameter_mm} mm`]),
  ]
  const filament = parts.length === 0 ? 'any filament' : parts.join(', ')
  return reel === undefined ? filament : `${filament}, from reel ${reel} only`
}

/** `red`, `red or blue`, `red, blue or grey`. */
export const orList = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)!}`
