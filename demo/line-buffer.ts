/**
 * Bytes of machine code written straight into one array: making a string of each line and
 * encoding it was the greater part of the time.
 */
export class LineBuffer {
  readonly #bytes: Uint8Array<ArrayBuffer>
  #length = 0

  constructor(capacity: number) {
    this.#bytes = new Uint8Array(capacity)
  }

  get length(): number {
    return this.#length
  }

  /** ASCII only. */
  text(text: string): this {
    for (let i = 0; i < text.length; i += 1) this.#bytes[this.#length++] = text.charCodeAt(i)
    return this
  }

  newline(): this {
    this.#bytes[this.#length++] = 10
    return this
  }

  /** A whole number, 0 ≤ value < 2³¹. */
  integer(value: number): this {
    return this.fixed(value, 0)
  }

  /** `value` · 10^-decimals with that many decimals; a whole number, |value| < 2³¹. */
  fixed(value: number, decimals: number): this {
    const bytes = this.#bytes
    let rest = value | 0
    if (rest < 0) {
      bytes[this.#length++] = 45
      rest = -rest
    }
    let digits = decimals + 1
    let limit = 10 ** digits
    while (rest >= limit) {
      digits += 1
      limit *= 10
    }
    let at = this.#length + digits + (decimals > 0 ? 1 : 0)
    this.#length = at
    for (let digit = 0; digit < digits; digit += 1) {
      if (digit === decimals && decimals > 0) bytes[--at] = 46
      const tenth = (rest / 10) | 0
      bytes[--at] = 48 + rest - tenth * 10
      rest = tenth
    }
    return this
  }

  /** A copy of what was written; the buffer is empty afterwards. */
  take(): Uint8Array<ArrayBuffer> {
    const taken = this.#bytes.slice(0, this.#length)
    this.#length = 0
    return taken
  }
}
