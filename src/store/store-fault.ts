import type { Refusal } from '../units/index.ts'

/**
 * Thrown by the reading members of a store, which have no other answer: `damaged`, `busy`,
 * `disk_failed`.
 */
export class StoreFault extends Error {
  readonly refusal: Refusal

  constructor(refusal: Refusal, cause?: unknown) {
    super(refusal.message, { cause })
    this.name = 'StoreFault'
    this.refusal = refusal
  }
}
