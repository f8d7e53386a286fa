import type { Refusal } from '../units/index.ts'

/** Thrown inside the reader to leave a file; never seen outside, where it is a Refusal. */
export class ReadStop extends Error {
  readonly refusal: Refusal
  constructor(refusal: Refusal) {
    super(refusal.message)
    this.name = 'ReadStop'
    this.refusal = refusal
  }
}

/** The refusal of a feed or an E number that no reel could follow. */
export const numberTooLarge = (): ReadStop =>
  new ReadStop({
    code: 'number_too_large',
    message: 'An E number or feed is larger than any reel. The file is damaged: export it again.',
  })
