import { beadFeed } from './bead-feed.ts'
import { type Feed, FeedAccount } from './feed-account.ts'

/** How a demo print is written down. */
export interface Dialect {
  readonly eMode: 'absolute' | 'relative'
  /** Millimetres pulled back by an E word, or `firmware` for G10 and G11. */
  readonly retraction_mm: number | 'firmware'
  /** Decimals of E words; X, Y and Z have three. */
  readonly eDecimals: number
  readonly lineEnd: '\n' | '\r\n'
}

/** A place on the bed, mm. */
export interface Point {
  readonly x: number
  readonly y: number
}

/**
 * Writes machine code of straightforward kind and keeps two accounts of what it feeds: the ideal
 * millimetres it was asked for, and the millimetres that stand in the file after rounding. Both
 * can then be held against the closed form of the print, which this class knows nothing of.
 *
 * In relative mode every E word is rounded by itself; in absolute mode the register is, so
 * errors do not add up between two G92. Either way `n` E words differ from the ideal by at most
 * n · 0.5 · 10^-decimals.
 */
export class MachineCode {
  readonly dialect: Dialect
  readonly #lines: string[] = []
  readonly #ideal = new FeedAccount()
  /** In whole units of the last decimal, so that sums are exact. */
  readonly #written = new FeedAccount()
  readonly #unitsPerMm: number
  #x = 0
  #y = 0
  #z = 0
  #tool = 0
  #register_mm = 0
  #registerUnits = 0
  #feedPerMm = 0
  #speed = 0
  #speedIsSet = true
  #eWords = 0

  constructor(dialect: Dialect) {
    this.dialect = dialect
    this.#unitsPerMm = 10 ** dialect.eDecimals
  }

  /** Any line that neither moves nor feeds. */
  command(line: string): this {
    this.#lines.push(line)
    return this
  }

  /** G90 first: under some firmware it also resets the mode of E. */
  modes(): this {
    return this.command('G21')
      .command('G90')
      .command(this.dialect.eMode === 'absolute' ? 'M82' : 'M83')
  }

  /** Section of the beads that follow. */
  bead(width_mm: number, height_mm: number): this {
    this.#feedPerMm = beadFeed(width_mm, height_mm)
    return this
  }

  /** Speed of the moves that follow, mm/min. */
  speed(mmPerMinute: number): this {
    this.#speed = mmPerMinute
    this.#speedIsSet = false
    return this
  }

  lift(z: number): this {
    this.#z = z
    return this.command(`G0 Z${coordinate(z)}`)
  }

  travel({ x, y }: Point): this {
    this.#x = x
    this.#y = y
    this.#speedIsSet = false
    return this.command(`G0 X${coordinate(x)} Y${coordinate(y)} F9000`)
  }

  /** Retracts, travels and takes the retraction back. */
  hop(to: Point): this {
    return this.retract().travel(to).unretract()
  }

  /** A straight bead; with `z` it climbs. */
  draw({ x, y }: Point, z: number = this.#z): this {
    const path = Math.hypot(x - this.#x, y - this.#y, z - this.#z)
    const climb = z === this.#z ? '' : ` Z${coordinate(z)}`
    this.#x = x
    this.#y = y
    this.#z = z
    const e = this.#e(path * this.#feedPerMm)
    return this.command(`G1 X${coordinate(x)} Y${coordinate(y)}${climb} ${e}${this.#speedWord()}`)
  }

  /** A circular bead round `centre` by `turn` radians, positive is anticlockwise; |turn| < 2π. */
  arc(centre: Point, turn: number): this {
    const i = centre.x - this.#x
    const j = centre.y - this.#y
    const cos = Math.cos(turn)
    const sin = Math.sin(turn)
    this.#x = centre.x - (i * cos - j * sin)
    this.#y = centre.y - (i * sin + j * cos)
    const e = this.#e(Math.hypot(i, j) * Math.abs(turn) * this.#feedPerMm)
    const end = `X${coordinate(this.#x)} Y${coordinate(this.#y)}`
    const name = turn > 0 ? 'G3' : 'G2'
    return this.command(
      `${name} ${end} I${coordinate(i)} J${coordinate(j)} ${e}${this.#speedWord()}`,
    )
  }

  /** Moves filament without moving the head; negative pulls back. */
  feed(length_mm: number): this {
    this.#speedIsSet = false
    return this.command(`G1 ${this.#e(length_mm)} F2100`)
  }

  retract(): this {
    const by = this.dialect.retraction_mm
    return by === 'firmware' ? this.command('G10') : this.feed(-by)
  }

  unretract(): this {
    const by = this.dialect.retraction_mm
    return by === 'firmware' ? this.command('G11') : this.feed(by)
  }

  zeroE(): this {
    this.#register_mm = 0
    this.#registerUnits = 0
    return this.command('G92 E0')
  }

  /** G92 follows, so that it does not matter whether tools share the register of E. */
  tool(number: number): this {
    this.#tool = number
    return this.command(`T${number}`).zeroE()
  }

  /** What the tool was asked to feed, mm. */
  ideal(tool: number): Feed {
    return this.#ideal.of(tool)
  }

  /** What the E words in the file add up to, mm. */
  written(tool: number): Feed {
    const { net, peak, positive } = this.#written.of(tool)
    const per = this.#unitsPerMm
    return { net: net / per, peak: peak / per, positive: positive / per }
  }

  /** Tools that fed, ascending. */
  get tools(): readonly number[] {
    return this.#ideal.tools
  }

  /** E words of moves written so far. */
  get eWords(): number {
    return this.#eWords
  }

  text(): string {
    return this.#lines.join(this.dialect.lineEnd) + this.dialect.lineEnd
  }

  #e(feed_mm: number): string {
    this.#ideal.add(this.#tool, feed_mm)
    this.#eWords += 1
    if (this.dialect.eMode === 'relative') {
      const units = Math.round(feed_mm * this.#unitsPerMm)
      this.#written.add(this.#tool, units)
      return this.#word(units)
    }
    this.#register_mm += feed_mm
    const units = Math.round(this.#register_mm * this.#unitsPerMm)
    this.#written.add(this.#tool, units - this.#registerUnits)
    this.#registerUnits = units
    return this.#word(units)
  }

  /** Travels and retractions have speeds of their own; the next bead says its speed again. */
  #speedWord(): string {
    if (this.#speedIsSet) return ''
    this.#speedIsSet = true
    return ` F${this.#speed}`
  }

  #word(units: number): string {
    return `E${(units / this.#unitsPerMm).toFixed(this.dialect.eDecimals)}`
  }
}

const coordinate = (mm: number): string => String(Math.round(mm * 1000) / 1000)
