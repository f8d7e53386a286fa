import type { Refusal } from '../units/index.ts'
import { ReadStop } from './read-stop.ts'

/** What a container may cost before it is taken for a trap. */
export interface ContainerLimits {
  /** Members of a zip, prints or not. */
  readonly members: number
  /** Inflated bytes of all members together. */
  readonly bytes: number
  /** Inflated bytes for each compressed byte. */
  readonly ratio: number
  /** Inflated bytes from which the ratio counts. */
  readonly ratioFrom: number
}

/** Print files compress three to ten times; the rest is far off that on purpose. */
export const containerLimits: ContainerLimits = {
  members: 1000,
  bytes: 8 * 2 ** 30,
  ratio: 200,
  ratioFrom: 2 ** 20,
}

/** Leaves the container. */
export function stopContainer(code: string, message: string, at?: number): never {
  const refusal: Refusal = at === undefined ? { code, message } : { code, message, at }
  throw new ReadStop(refusal)
}

/** Counts what comes out of a container against what went in. */
export class InflationMeter {
  readonly limits: ContainerLimits
  #total = 0

  constructor(limits: ContainerLimits) {
    this.limits = limits
  }

  /**
   * Counts one more piece.
   *
   * @param added - inflated bytes that came out
   * @param member - inflated bytes of this member so far
   * @param packed - compressed bytes they came from, at most
   */
  count(added: number, member: number, packed: number): void {
    this.#total += added
    const { bytes, ratio, ratioFrom } = this.limits
    if (this.#total > bytes || (member > ratioFrom && member > ratio * packed)) {
      stopContainer(
        'container_bomb',
        `The archive unpacks to far more than its size (${member} bytes so far), as no print does. Unpack it yourself if you trust where it comes from, and give the machine code.`,
      )
    }
  }
}
