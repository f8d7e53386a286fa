/** A column of numbers that grows. */
export class Column {
  #values = new Float64Array(64)
  length = 0

  push(value: number): void {
    if (this.length === this.#values.length) {
      const larger = new Float64Array(this.length * 2)
      larger.set(this.#values)
      this.#values = larger
    }
    this.#values[this.length++] = value
  }

  at(index: number): number {
    return this.#values[index] as number
  }

  set(index: number, value: number): void {
    this.#values[index] = value
  }

  clear(): void {
    this.length = 0
  }

  clone(): Column {
    const copy = new Column()
    copy.#values = this.#values.slice()
    copy.length = this.length
    return copy
  }

  toArray(): Float64Array {
    return this.#values.slice(0, this.length)
  }
}
