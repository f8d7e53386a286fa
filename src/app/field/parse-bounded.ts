import { accept, type Outcome, parseNumber, refuse } from '../../units/index.ts'
import { fieldWords } from '../strings/field-words.ts'
import { decimalMark, refuseDotted } from './refuse-dotted.ts'

/** What numbers are taken. */
export interface NumberBounds {
  /** Least that is taken; 0 unless given. */
  readonly least?: number
  readonly most?: number
  readonly whole?: boolean
}

/**
 * A plain number, with a comma or a point.
 *
 * @param mark - the decimal mark of the person's language
 * @returns `number_malformed`, `number_ambiguous`, `number_out_of_bounds`
 */
export const parseBounded = (
  typed: string,
  { least = 0, most = 1e9, whole = false }: NumberBounds = {},
  mark: string = decimalMark,
): Outcome<number> => {
  const read = refuseDotted(typed, mark) ?? parseNumber(typed)
  if (!read.ok && read.refusal.code === 'number_ambiguous') return read
  if (!read.ok || (whole && !Number.isInteger(read.value))) {
    return refuse({
      code: 'number_malformed',
      message: fieldWords.noNumber(typed, whole),
      received: typed,
    })
  }
  const { value } = read
  if (value >= least && value <= most) return accept(value)
  return refuse({
    code: 'number_out_of_bounds',
    message: fieldWords.outOfBounds(least, most),
    received: typed,
  })
}
