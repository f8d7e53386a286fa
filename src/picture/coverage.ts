import type { Polyline } from './letter-strokes.ts'

/** How much of each pixel of a sheet something covers, 0 to 1, row after row from the top. */
export class Coverage {
  readonly width: number
  readonly height: number
  readonly of: Float32Array
  /** The part of the sheet that anything was put on, whole pixels; empty where top is at the bottom. */
  left = 0
  right = 0
  top = 0
  bottom = 0

  constructor(width: number, height: number) {
    this.width = width
    this.height = height
    this.of = new Float32Array(width * height)
  }

  clear(): void {
    this.of.fill(0, this.top * this.width, this.bottom * this.width)
    this.left = this.right = this.top = this.bottom = 0
  }

  #touch(left: number, right: number, top: number, bottom: number): void {
    const isEmpty = this.top === this.bottom
    this.left = isEmpty ? left : Math.min(this.left, left)
    this.right = isEmpty ? right : Math.max(this.right, right)
    this.top = isEmpty ? top : Math.min(this.top, top)
    this.bottom = isEmpty ? bottom : Math.max(this.bottom, bottom)
  }

  /** A line with round ends and corners: a pixel is covered as far as its centre lies inside. */
  stroke(line: Polyline, width: number): void {
    const half = Math.max(width, 1) / 2
    // A line thinner than a pixel is as wide as one, and fainter.
    const most = Math.min(1, width)
    for (let k = 2; k < line.length; k += 2) {
      this.#segment(line[k - 2]!, line[k - 1]!, line[k]!, line[k + 1]!, half, most)
    }
  }

  #segment(x0: number, y0: number, x1: number, y1: number, half: number, most: number): void {
    const reach = half + 0.5
    const top = Math.max(0, Math.floor(Math.min(y0, y1) - reach))
    const bottom = Math.min(this.height, Math.ceil(Math.max(y0, y1) + reach))
    const left = Math.max(0, Math.floor(Math.min(x0, x1) - reach))
    const right = Math.min(this.width, Math.ceil(Math.max(x0, x1) + reach))
    if (top >= bottom || left >= right) return
    this.#touch(left, right, top, bottom)
    const dx = x1 - x0
    const dy = y1 - y0
    const square = dx * dx + dy * dy
    for (let row = top; row < bottom; row++) {
      for (let column = left; column < right; column++) {
        const px = column + 0.5 - x0
        const py = row + 0.5 - y0
        const share = square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / square))
        const away = Math.hypot(px - share * dx, py - share * dy)
        const covers = Math.min(most, reach - away)
        const at = row * this.width + column
        if (covers > this.of[at]!) this.of[at] = covers
      }
    }
  }

  /**
   * What closed lines enclose, holes left out: rows are sampled at several heights, and along each the
   * exact share of every pixel is taken.
   */
  enclose(lines: readonly Polyline[]): void {
    const extent = extentOf(lines)
    const top = Math.max(0, Math.floor(extent.top))
    const bottom = Math.min(this.height, Math.ceil(extent.bottom))
    const left = Math.max(0, Math.floor(extent.left))
    const right = Math.min(this.width, Math.ceil(extent.right))
    if (top >= bottom || left >= right) return
    this.#touch(left, right, top, bottom)
    for (let row = top; row < bottom; row++) {
      for (let sample = 0; sample < samples; sample++) {
        const y = row + (sample + 0.5) / samples
        const crossings = crossingsAt(lines, y)
        for (let k = 1; k < crossings.length; k += 2) {
          this.#run(row, crossings[k - 1]!, crossings[k]!, 1 / samples)
        }
      }
    }
  }

  #run(row: number, from: number, to: number, weight: number): void {
    const left = Math.max(0, from)
    const right = Math.min(this.width, to)
    for (let column = Math.floor(left); column < right; column++) {
      const share = Math.min(right, column + 1) - Math.max(left, column)
      const at = row * this.width + column
      this.of[at] = Math.min(1, this.of[at]! + share * weight)
    }
  }

  /** Keeps only what lies between two heights. */
  keepBetween(top: number, bottom: number): void {
    for (let row = this.top; row < this.bottom; row++) {
      const share = Math.max(0, Math.min(bottom, row + 1) - Math.max(top, row))
      if (share >= 1) continue
      for (let column = this.left; column < this.right; column++) {
        this.of[row * this.width + column]! *= share
      }
    }
  }
}

const samples = 8

const extentOf = (
  lines: readonly Polyline[],
): Pick<Coverage, 'left' | 'right' | 'top' | 'bottom'> => {
  let [left, right, top, bottom] = [Infinity, -Infinity, Infinity, -Infinity]
  for (const line of lines) {
    for (let k = 1; k < line.length; k += 2) {
      left = Math.min(left, line[k - 1]!)
      right = Math.max(right, line[k - 1]!)
      top = Math.min(top, line[k]!)
      bottom = Math.max(bottom, line[k]!)
    }
  }
  return { left, right, top, bottom }
}

/** Where closed lines cross a height, from left to right: in and out by turns. */
const crossingsAt = (lines: readonly Polyline[], y: number): readonly number[] => {
  const crossings: number[] = []
  for (const line of lines) {
    for (let k = 2; k < line.length; k += 2) {
      const y0 = line[k - 1]!
      const y1 = line[k + 1]!
      if (y0 <= y === y1 <= y) continue
      const x0 = line[k - 2]!
      const x1 = line[k]!
      crossings.push(x0 + ((y - y0) / (y1 - y0)) * (x1 - x0))
    }
  }
  // oxlint-disable-next-line unicorn/no-array-sort -- its own, and made very often
  return crossings.sort((a, b) => a - b)
}
