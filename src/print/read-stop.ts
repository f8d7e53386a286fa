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
