import type { FactBounds } from '../../ledger/index.ts'
import { type Outcome, refuse } from '../../units/index.ts'
import { fieldWords } from '../strings/field-words.ts'

/**
 * A parser that refuses, beside the field, what the ledger would refuse.
 *
 * @param valuesOf - each has to lie within the bounds, in their unit
 */
export const withinBounds =
  <Q>(
    parse: (text: string) => Outcome<Q>,
    valuesOf: (read: Q) => readonly number[],
    bounds: FactBounds,
  ): ((text: string) => Outcome<Q>) =>
  (text) => {
    const read = parse(text)
    const [low, high] = bounds
    if (!read.ok || valuesOf(read.value).every((value) => value >= low && value <= high))
      return read
    const message = fieldWords.between(bounds)
    return refuse({ code: 'out_of_bounds', message, received: text })
  }
