import { accept, type Measured, measured, type Outcome, refuse } from '../../units/index.ts'

/** A plain number above 0, with a comma or a point. @param most - no more than this */
export const parsePlain =
  (most: number) =>
  (text: string): Outcome<Measured> => {
    const value = Number(text.trim().replace(',', '.'))
    return value > 0 && value <= most
      ? accept(measured(value))
      : refuse({
          code: 'number_malformed',
          message: `A number above 0, up to ${most}.`,
          received: text,
        })
  }
