import { isListedM } from './listed-codes.ts'
import { isMotionM } from './motion-commands.ts'
import { moveColumns } from './move-planner.ts'
import { plainLinesCode } from './plain-lines-code.ts'

/**
 * Slots of the numbers that the kernel and the line reader share. Words of a line stand at the
 * place of their letter, A = 0. The same numbers stand in core/plain-lines.ts.
 */
export const slot = {
  wordE: 4,
  /** Speed as the file gave it last, mm/min; stays from line to line. */
  wordF: 5,
  wordI: 8,
  wordJ: 9,
  wordR: 17,
  wordX: 23,
  wordY: 24,
  wordZ: 25,
  x: 26,
  y: 27,
  z: 28,
  /** Logical E, net and peak of the active tool, while one state stands for all families. */
  e: 29,
  net: 30,
  peak: 31,
  /** Draw at which the curve's next row is due. */
  due: 32,
  /** Heights outside this band may be another layer. */
  top: 33,
  floor: 34,
  line: 35,
  extruding: 36,
  moves: 37,
  arcs: 38,
  retractions: 39,
  extrudingArcs: 40,
  /** Not 0 once a command was seen that is no move. */
  commands: 41,
  /** The silhouette's row at hand holds heights above the first, up to the second. */
  rowFrom: 42,
  rowTo: 43,
  /** Side views along X and Y: where the seven slots of each begin (`viewSlot`). */
  viewX: 44,
  viewY: 51,
} as const

/** Of a side view: columns to the mm, the first column, how many, and four slots of 256 bits. */
export const viewSlot = { perMm: 0, first: 1, count: 2, bits: 3 } as const

export const slots = 64

/** So many extruding moves are all sampled for their bead, later ones one in `sampledOf`. */
export const alwaysSampled = 4096
export const sampledOf = 256

/** Bits of the letters seen on a line, A = bit 0. */
export const letterBit = (letter: string): number => 1 << (letter.charCodeAt(0) - 65)

/** What the line reader does when something happens that is not every line's business. */
export interface PlainEvents {
  /** An extruding move leaves the band of heights, or climbs, to this height. */
  layer(height: number, at: number): void
  /** The curve's next row is due. */
  row(height: number, at: number): void
  longFeed(at: number): void
  bead(feed: number, dx: number, dy: number, dz: number, stands: number): void
  /** G92 with an E number. */
  origin(value: number): void
  /** A move to be taken as it stands; its words are in their slots. `arc`: 0, or 2 or 3 as in G. */
  move(seen: number, arc: number, at: number): void
  longLine(at: number): void
  loneCR(at: number): void
  /** A move that draws outside the silhouette's row at hand, or an arc; ends are in X, Y, Z's slots. */
  draws(seen: number, arc: number): void
  /** Takes the moves for the planner that were written down, in rows of `moveColumns`. */
  timed(moves: Float64Array, count: number): void
  /** An arc to be timed; ends are in X, Y, Z's slots. */
  timedArc(seen: number, arc: number, feed: number): void
}

/** Modes that hold from line to line while only plain lines come. */
export interface PlainModes {
  /** False: every move is handed over. */
  readonly plain: boolean
  /** Whether the silhouette is asked for. */
  readonly drawing: boolean
  /** Whether the time is asked for. */
  readonly timing: boolean
  readonly relative: boolean
  readonly scale: number
  readonly factor: number
}

interface Kernel {
  readonly memory: { readonly buffer: ArrayBuffer }
  index(from: number, end: number): void
  run(
    from: number,
    end: number,
    plain: number,
    drawing: number,
    timing: number,
    relative: number,
    scale: number,
    factor: number,
  ): number
}

// What every engine has and the language's own library does not name.
declare const WebAssembly:
  | undefined
  | {
      readonly Module: new (code: Uint8Array) => object
      readonly Instance: new (module: object, imports: object) => { readonly exports: Kernel }
    }

const pendingAt = 640
const movesAt = 339_968
const movesBudget = 1024
const windowAt = 4096
/** Longest stretch of lines the kernel takes at once, bytes. */
export const windowSize = 65_536
const padding = 128
const LF = 10

/**
 * The kernel of core/plain-lines.ts with its memory. One for all readers: between two calls it holds
 * nothing but the window, which a reader fills anew.
 */
export class PlainLines {
  readonly #kernel: Kernel
  readonly #bytes: Uint8Array
  readonly #hot: Float64Array
  readonly #pending: Uint32Array
  readonly #moves: Float64Array
  #events: PlainEvents | null = null
  /** Counts the windows filled: who finds another number than it left must fill again. */
  fills = 0

  constructor(module: object, wasm: NonNullable<typeof WebAssembly>) {
    const events = (): PlainEvents => this.#events as PlainEvents
    const on: Omit<PlainEvents, 'timed'> & { readonly timed: () => void } = {
      layer: (height, at) => events().layer(height, at - windowAt),
      row: (height, at) => events().row(height, at - windowAt),
      longFeed: (at) => events().longFeed(at - windowAt),
      bead: (feed, dx, dy, dz, stands) => events().bead(feed, dx, dy, dz, stands),
      origin: (value) => events().origin(value),
      move: (seen, arc, at) => events().move(seen, arc, at - windowAt),
      longLine: (at) => events().longLine(at - windowAt),
      loneCR: (at) => events().loneCR(at - windowAt),
      draws: (seen, arc) => events().draws(seen, arc),
      timed: () => this.takeMoves(),
      timedArc: (seen, arc, feed) => events().timedArc(seen, arc, feed),
    }
    this.#kernel = new wasm.Instance(module, { on }).exports
    const { buffer } = this.#kernel.memory
    this.#bytes = new Uint8Array(buffer)
    this.#hot = new Float64Array(buffer, 0, slots)
    this.#pending = new Uint32Array(buffer, pendingAt, 1)
    this.#moves = new Float64Array(buffer, movesAt, movesBudget * moveColumns)
    for (let k = 0; k < 16; k++) new Float64Array(buffer, 512, 16)[k] = 10 ** k
    for (let code = 0; code < 1000; code++) {
      this.#bytes[1024 + code] = isListedM(code) ? 1 : isMotionM(code) ? 2 : 0
    }
  }

  /** Hands the moves written down to the reader that runs. */
  takeMoves(): void {
    const count = this.#pending[0] as number
    if (count === 0) return
    this.#pending[0] = 0
    this.#events?.timed(this.#moves, count)
  }

  /** Takes whole lines, at most `windowSize` bytes of them. */
  fill(lines: Uint8Array): void {
    this.#bytes.set(lines, windowAt)
    const end = windowAt + lines.length
    this.#bytes.fill(LF, end, end + padding)
    this.#kernel.index(windowAt, end)
    this.fills++
  }

  /**
   * Reads lines of the window from `from` to `end` and returns where the first odd line begins, or
   * `end`. `own` is the reader's slots; while it runs, `lend` gives the reader the kernel's.
   */
  run(
    from: number,
    end: number,
    modes: PlainModes,
    own: Float64Array,
    lend: (slots: Float64Array) => PlainEvents,
  ): number {
    this.#hot.set(own)
    this.#events = lend(this.#hot)
    try {
      const { plain, drawing, timing, relative, scale, factor } = modes
      const stop = this.#kernel.run(
        windowAt + from,
        windowAt + end,
        plain ? 1 : 0,
        drawing ? 1 : 0,
        timing ? 1 : 0,
        relative ? 1 : 0,
        scale,
        factor,
      )
      this.takeMoves()
      return stop - windowAt
    } finally {
      this.#pending[0] = 0
      own.set(this.#hot)
      lend(own)
    }
  }
}

let shared: PlainLines | null | undefined

/**
 * The kernel; null where the engine has no WebAssembly with SIMD, or a page's policy forbids it. The
 * line reader then reads every line itself: some twenty times slower, to the same result.
 */
export function plainLines(): PlainLines | null {
  if (shared === undefined) {
    try {
      const wasm = typeof WebAssembly === 'undefined' ? undefined : WebAssembly
      shared =
        wasm === undefined
          ? null
          : new PlainLines(new wasm.Module(fromBase64(plainLinesCode)), wasm)
    } catch {
      shared = null
    }
  }
  return shared
}

const digits = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'

function fromBase64(text: string): Uint8Array {
  const length = Math.floor((text.replace(/=+$/, '').length * 3) / 4)
  const bytes = new Uint8Array(length)
  let bits = 0
  let held = 0
  let at = 0
  for (let i = 0; at < length; i++) {
    held = (held << 6) | digits.indexOf(text.charAt(i))
    bits += 6
    if (bits >= 8) {
      bits -= 8
      bytes[at++] = (held >> bits) & 0xff
    }
  }
  return bytes
}
