import type { ShelfFact } from './shelf-facts.ts'

/** How many facts a tape is of, how many rows and numbers they come to at most, and where these begin. */
export class TapeSize {
  facts = 0
  rows = 0
  numbers = 0
  firstRow = 0
  firstNumber = 0

  add(fact: ShelfFact): void {
    const [rows, numbers] = atMost(fact)
    // What something that was not recorded does is a row of its own, before the next reading.
    const unsure = 'afterUnrecorded' in fact && fact.afterUnrecorded ? 1 : 0
    this.facts++
    this.rows += rows + unsure
    this.numbers += numbers + 2 * unsure
  }
}

const aDraw = [1, 1] as const
const aPart = [1, 2] as const
const aReading = [1, 8] as const
const anOpening = [2, 10] as const
const anything = [5, 40] as const

/** Rows and numbers of a fact, at most: at an opening a reading and a change, else the five that can be measured. */
const atMost = (fact: ShelfFact): readonly [number, number] => {
  if (fact.kind === 'drew') return fact.share === undefined ? aDraw : aPart
  if (fact.kind === 'weighed') return aReading
  return fact.kind === 'opened' ? anOpening : anything
}

/** Where tapes are written, one after the other. */
export class TapeRoom {
  readonly kind: Uint8Array
  readonly who: Int16Array
  readonly numbers: Float64Array
  readonly at: Float64Array

  /** @param sizes - of the tapes; where each begins is written into them */
  constructor(sizes: readonly TapeSize[]) {
    let rows = 0
    let numbers = 0
    for (const size of sizes) {
      size.firstRow = rows
      size.firstNumber = numbers
      rows += size.rows
      numbers += size.numbers
    }
    this.kind = new Uint8Array(rows)
    this.who = new Int16Array(rows)
    this.numbers = new Float64Array(numbers)
    this.at = new Float64Array(rows)
  }
}
