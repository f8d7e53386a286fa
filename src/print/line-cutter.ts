import { lineBudget } from './line-budget.ts'

const LF = 10
const CR = 13

/**
 * Takes one line.
 *
 * @param buf - holds it from `start` to `stop`, its end not included; good until this returns
 * @param byte - where it begins, bytes from the start of what was pushed
 * @param next - where the line after it begins
 */
export type TakeLine = (
  buf: Uint8Array,
  start: number,
  stop: number,
  byte: number,
  next: number,
) => void

/**
 * Cuts slices of any size into lines that end at LF, CR or CRLF, in constant memory: of a line longer
 * than any command may be, only the beginning is handed on.
 */
export class LineCutter {
  readonly #take: TakeLine
  /** The beginning of the line that is not complete. */
  #held: Uint8Array = new Uint8Array(0)
  /** Of that line, what was let go of, and where it begins. */
  #dropped = 0
  #at = 0
  #afterCR = false

  constructor(take: TakeLine) {
    this.#take = take
  }

  push(slice: Uint8Array): void {
    let start = 0
    if (this.#afterCR && slice.length > 0) {
      this.#afterCR = false
      start = slice[0] === LF ? 1 : 0
      this.#end(this.#held, 0, this.#held.length, start + 1)
    }
    for (let i = start; i < slice.length; i++) {
      const byte = slice[i]
      if (byte !== LF && byte !== CR) continue
      if (byte === CR && i + 1 === slice.length) {
        // Whether an LF belongs to this CR is not known yet.
        this.#hold(slice.subarray(start, i))
        this.#afterCR = true
        return
      }
      const ends = byte === CR && slice[i + 1] === LF ? 2 : 1
      if (this.#held.length === 0) this.#end(slice, start, i, ends)
      else {
        this.#hold(slice.subarray(start, i))
        this.#end(this.#held, 0, this.#held.length, ends)
      }
      start = i + ends
      i = start - 1
    }
    if (start < slice.length) this.#hold(slice.subarray(start))
  }

  /** The last line, which needs no end. */
  finish(): void {
    if (this.#held.length === 0 && !this.#afterCR) return
    this.#end(this.#held, 0, this.#held.length, this.#afterCR ? 1 : 0)
    this.#afterCR = false
  }

  #end(buf: Uint8Array, start: number, stop: number, ends: number): void {
    const byte = this.#at
    this.#at += stop - start + this.#dropped + ends
    this.#dropped = 0
    this.#take(buf, start, stop, byte, this.#at)
    this.#held = new Uint8Array(0)
  }

  #hold(part: Uint8Array): void {
    const kept = part.subarray(0, Math.max(0, lineBudget - this.#held.length))
    this.#dropped += part.length - kept.length
    const joined = new Uint8Array(this.#held.length + kept.length)
    joined.set(this.#held)
    joined.set(kept, this.#held.length)
    this.#held = joined
  }
}
