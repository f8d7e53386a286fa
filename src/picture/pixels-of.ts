import { Coverage } from './coverage.ts'
import { type Drawing, hatched, type PathShape, type TextShape } from './drawing.ts'
import { letterStrokes, type Polyline } from './letter-strokes.ts'
import { type Ground, hatching, inks, letterings, paperAndInk } from './look.ts'
import { dashes, pathLines } from './path-lines.ts'

/** A picture: red, green and blue of each pixel, a byte each, row after row from the top. */
export interface Pixels {
  readonly width: number
  readonly height: number
  readonly rgb: Uint8Array
}

/** Shades between paper and ink: few, so that the picture packs well. */
const steps = 16
/** Letters are drawn with a line of so much of their size. */
const stroke = 0.085

/**
 * A drawing as pixels.
 *
 * @param scale - pixels to a px of the drawing, > 0; 2 for a sharp picture on today's screens
 */
export const pixelsOf = (drawing: Drawing, scale = 2, ground: Ground = paperAndInk): Pixels => {
  const sheet = new Sheet(
    Math.ceil(drawing.width * scale),
    Math.ceil(drawing.height * scale),
    scale,
    ground,
  )
  for (const shape of drawing.shapes) {
    if (shape.kind === 'text') sheet.letter(shape)
    else sheet.draw(shape)
  }
  return sheet.pixels
}

type Colour = readonly [number, number, number]

const colourOf = (hex: string): Colour => [
  Number.parseInt(hex.slice(1, 3), 16),
  Number.parseInt(hex.slice(3, 5), 16),
  Number.parseInt(hex.slice(5, 7), 16),
]

class Sheet {
  readonly pixels: Pixels
  readonly #scale: number
  readonly #ground: Ground
  readonly #coverage: Coverage

  constructor(width: number, height: number, scale: number, ground: Ground) {
    this.#scale = scale
    this.#ground = ground
    this.#coverage = new Coverage(width, height)
    const rgb = new Uint8Array(3 * width * height)
    const [red, green, blue] = colourOf(ground.paper)
    for (let at = 0; at < rgb.length; at += 3) {
      rgb[at] = red
      rgb[at + 1] = green
      rgb[at + 2] = blue
    }
    this.pixels = { width, height, rgb }
  }

  draw(shape: PathShape): void {
    const { stroke: line, width = 1, dash, fill, opacity = 1 } = inks[shape.ink]
    const lines = this.#scaled(pathLines(shape))
    const filling = shape.fill ?? (fill === undefined ? undefined : this.#ground[fill])
    if (filling !== undefined) {
      this.#coverage.enclose(lines)
      this.#lay(shape, filling === hatched ? 'hatching' : colourOf(filling), opacity)
    }
    if (line !== undefined) {
      const drawn =
        dash === undefined ? lines : dashes(lines, [dash[0] * this.#scale, dash[1] * this.#scale])
      for (const each of drawn) this.#coverage.stroke(each, (shape.width ?? width) * this.#scale)
      this.#lay(shape, colourOf(this.#ground[line]), 1)
    }
  }

  letter({ text, x, y, anchor, lettering }: TextShape): void {
    const { colour, size } = letterings[lettering]
    const big = size * this.#scale
    const place = { x: x * this.#scale, y: y * this.#scale, size: big, anchor }
    for (const line of letterStrokes(text, place)) this.#coverage.stroke(line, big * stroke)
    this.#lay({}, colourOf(this.#ground[colour]), 1)
  }

  #scaled(lines: readonly Polyline[]): readonly Polyline[] {
    return lines.map((line) => line.map((place) => place * this.#scale))
  }

  /** Lays a colour where anything was put down, and clears the coverage for the next. */
  #lay(
    { between }: Pick<PathShape, 'between'>,
    colour: Colour | 'hatching',
    opacity: number,
  ): void {
    const { of, width, left, right, top, bottom } = this.#coverage
    if (between) this.#coverage.keepBetween(between.top * this.#scale, between.bottom * this.#scale)
    const [red, green, blue] = colour === 'hatching' ? colourOf(this.#ground.ink) : colour
    const { rgb } = this.pixels
    for (let row = top; row < bottom; row++) {
      for (let column = left; column < right; column++) {
        const covers = of[row * width + column]!
        if (covers === 0) continue
        const full = opacity * (colour === 'hatching' ? this.#hatched(column, row) : 1)
        const share = Math.round(covers * full * steps) / steps
        const at = 3 * (row * width + column)
        rgb[at] = mix(rgb[at]!, red, share)
        rgb[at + 1] = mix(rgb[at + 1]!, green, share)
        rgb[at + 2] = mix(rgb[at + 2]!, blue, share)
      }
    }
    this.#coverage.clear()
  }

  /** How much of a pixel lies on a line of the hatching. */
  #hatched(column: number, row: number): number {
    const apart = (hatching.apart / Math.SQRT2) * this.#scale
    const across = (column + row + 1) / Math.SQRT2
    const away = Math.abs(across - Math.round(across / apart) * apart)
    const half = (hatching.width / 2) * this.#scale
    return hatching.opacity * Math.min(1, Math.max(0, half + 0.5 - away))
  }
}

const mix = (below: number, above: number, share: number): number =>
  Math.round(below + (above - below) * Math.min(1, share))
