import { isListedM } from './listed-codes.ts'
import { isMotionM } from './motion-commands.ts'
import { moveColumns } from './move-planner.ts'
import { picometresPerMm } from './picometres.ts'
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
  /** Logical E, net and peak of the active tool, pm, while one state stands for all families. */
  e: 29,
  net: 30,
  peak: 31,
  /** Draw at which the curve's next row is due, pm. */
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
  /** Bytes where the curve's next cell begins, and from which a bead is sampled (look-spacing.ts). */
  curveAt: 58,
  beadAt: 59,
  /** The kernel's own: byte of the machine code that would lie at address 0. */
  origin: 60,
  /** Net feed at which the curve is looked at next, and how far the next look is behind it, pm. */
  lookAt: 61,
  spacing: 62,
  /** While a range is read: its own spacing, pm; else 0. */
  ownSpacing: 63,
} as const

/** Of a side view: columns to the mm, the first column, how many, and four slots of 256 bits. */
export const viewSlot = { perMm: 0, first: 1, count: 2, bits: 3 } as const

export const slots = 64

/** Bits of the letters seen on a line, A = bit 0. */
export const letterBit = (letter: string): number => 1 << (letter.charCodeAt(0) - 65)

/** What the line reader does when something happens that is not every line's business. */
export interface PlainEvents {
  /** An extruding move leaves the band of heights, or climbs, to this height. */
  layer(height: number, at: number): void
  /** The curve is to be looked at; `cell`: a cell of it begins. */
  look(height: number, at: number, cell: boolean): void
  /** Takes the rows of the curve that were written down, `rowColumns` numbers each. */
  rows(rows: Float64Array, count: number): void
  longFeed(at: number): void
  /** mm. */
  bead(feed: number, dx: number, dy: number, dz: number, stands: number): void
  /** G92 with an E number, mm. */
  origin(value: number): void
  /** A move to be taken as it stands; its words are in their slots. `arc`: 0, or 2 or 3 as in G. */
  move(seen: number, arc: number, at: number): void
  longLine(at: number): void
  loneCR(at: number): void
  /** A move that draws outside the silhouette's row at hand, or an arc; ends are in X, Y, Z's slots. */
  draws(seen: number, arc: number): void
  /** Takes the moves for the planner that were written down, in rows of `moveColumns`. */
  timed(moves: Float64Array, count: number): void
  /** An arc to be timed; ends are in X, Y, Z's slots. `feed` in mm. */
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

/** Addresses in the kernel's memory; the same numbers stand in core/plain-lines.ts. */
const memory = {
  powers: 512,
  picometres: 640,
  powersByPoint: 768,
  picometresByPoint: 904,
  keeps: 1040,
  shuffles: 1072,
  counted: 1344,
  constants: 2352,
  pending: 2496,
  pendingRows: 2504,
  rowStep: 2512,
  moves: 10_880,
  halfShuffles: 16_000,
  window: 16_384,
  rows: 90_112,
  room: 98_304,
} as const
/** Longest stretch of lines the kernel takes at once, bytes. */
export const windowSize = 65_536
/** Moves, and rows of the curve, that are written down before they are taken. */
const movesBudget = 128
const rowsBudget = 128
/** Of a row of the curve: draw, pm, height, mm, byte. */
export const rowColumns = 3
/** Size of the room for slices, bytes. */
const roomBytes = 3 * 2 ** 19

/** Where lines lie in the window, and which byte of the machine code is the window's first. */
export interface WindowLines {
  readonly from: number
  readonly to: number
  readonly byte: number
}

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
  readonly #pendingRows: Uint32Array
  readonly #rows: Float64Array
  readonly #rowStep: Float64Array
  #events: PlainEvents | null = null
  /** Address of the window. */
  #window: number = memory.window
  #roomLent = false
  /** Counts the windows filled: who finds another number than it left must fill again. */
  fills = 0

  constructor(module: object, wasm: NonNullable<typeof WebAssembly>) {
    const events = (): PlainEvents => this.#events as PlainEvents
    const on = {
      layer: (height: number, at: number) => {
        this.#takeRows()
        events().layer(height, at - this.#window)
      },
      look: (height: number, at: number, cell: number) =>
        events().look(height, at - this.#window, cell !== 0),
      rows: () => this.#takeRows(),
      longFeed: (at: number) => events().longFeed(at - this.#window),
      bead: (feed: number, dx: number, dy: number, dz: number, stands: number) =>
        events().bead(feed, dx, dy, dz, stands),
      origin: (value: number) => {
        this.#takeRows()
        events().origin(value)
      },
      move: (seen: number, arc: number, at: number) => events().move(seen, arc, at - this.#window),
      longLine: (at: number) => events().longLine(at - this.#window),
      loneCR: (at: number) => events().loneCR(at - this.#window),
      draws: (seen: number, arc: number) => events().draws(seen, arc),
      timed: () => this.takeMoves(),
      timedArc: (seen: number, arc: number, feed: number) => events().timedArc(seen, arc, feed),
    }
    this.#kernel = new wasm.Instance(module, { on }).exports
    const { buffer } = this.#kernel.memory
    this.#bytes = new Uint8Array(buffer)
    this.#hot = new Float64Array(buffer, 0, slots)
    this.#pending = new Uint32Array(buffer, memory.pending, 1)
    this.#moves = new Float64Array(buffer, memory.moves, movesBudget * moveColumns)
    this.#pendingRows = new Uint32Array(buffer, memory.pendingRows, 1)
    this.#rows = new Float64Array(buffer, memory.rows, rowsBudget * rowColumns)
    this.#rowStep = new Float64Array(buffer, memory.rowStep, 1)
    fillTables(buffer)
  }

  /** Hands the moves written down to the reader that runs. */
  takeMoves(): void {
    const count = this.#pending[0] as number
    if (count === 0) return
    this.#pending[0] = 0
    this.#events?.timed(this.#moves, count)
  }

  #takeRows(): void {
    const count = this.#pendingRows[0] as number
    if (count === 0) return
    this.#pendingRows[0] = 0
    this.#events?.rows(this.#rows, count)
  }

  /** Says how far apart rows of the curve are to be kept from here on, pm. */
  setRowStep(step: number): void {
    this.#rowStep[0] = step
  }

  /**
   * Takes whole lines, at most `windowSize` bytes of them. Those of a slice of `borrowSlices` stay
   * where they are.
   */
  fill(lines: Uint8Array): void {
    if (lines.buffer === this.#bytes.buffer) this.#window = lines.byteOffset
    else {
      this.#window = memory.window
      this.#bytes.set(lines, memory.window)
    }
    this.#kernel.index(this.#window, this.#window + lines.length)
    this.fills++
  }

  /**
   * Reads lines of the window and returns where the first odd line begins, or their end. `own` is the
   * reader's slots; while it runs, `lend` gives the reader the kernel's.
   */
  run(
    { from, to, byte }: WindowLines,
    modes: PlainModes,
    own: Float64Array,
    lend: (slots: Float64Array) => PlainEvents,
  ): number {
    const window = this.#window
    this.#hot.set(own)
    this.#hot[slot.origin] = byte - window
    this.#events = lend(this.#hot)
    try {
      const { plain, drawing, timing, relative, scale, factor } = modes
      const stop = this.#kernel.run(
        window + from,
        window + to,
        plain ? 1 : 0,
        drawing ? 1 : 0,
        timing ? 1 : 0,
        relative ? 1 : 0,
        scale,
        factor,
      )
      this.takeMoves()
      this.#takeRows()
      return stop - window
    } finally {
      this.#pending[0] = 0
      this.#pendingRows[0] = 0
      own.set(this.#hot)
      lend(own)
    }
  }

  /** Lends the room for slices to one borrower at a time; null while it is lent. */
  borrow(bytes: number): BorrowedSlices | null {
    if (this.#roomLent) return null
    this.#roomLent = true
    const slices = Array.from({ length: Math.floor(roomBytes / bytes) }, (_, k) =>
      this.#bytes.subarray(memory.room + k * bytes, memory.room + (k + 1) * bytes),
    )
    return {
      slices,
      giveBack: () => {
        this.#roomLent = false
      },
    }
  }
}

/** Buffers in the kernel's memory, to be given back once nothing is read into them any more. */
export interface BorrowedSlices {
  readonly slices: readonly Uint8Array[]
  giveBack(): void
}

function fillTables(buffer: ArrayBuffer): void {
  const numbers = (at: number, length: number): Float64Array => new Float64Array(buffer, at, length)
  const powers = numbers(memory.powers, 16)
  const picometres = numbers(memory.picometres, 16)
  for (let decimals = 0; decimals < 16; decimals++) {
    powers[decimals] = 10 ** decimals
    picometres[decimals] = picometresPerMm / 10 ** decimals
  }
  // Of sixteen characters that end a number, the point may be any, or (16) there is none.
  const bytes = new Uint8Array(buffer)
  for (let point = 0; point <= 16; point++) {
    const decimals = point === 16 ? 0 : 15 - point
    numbers(memory.powersByPoint, 17)[point] = powers[decimals] as number
    numbers(memory.picometresByPoint, 17)[point] = picometres[decimals] as number
    for (let k = 0; k < 16; k++) {
      const taken = point === 16 || k > point ? k : k - 1
      bytes[memory.shuffles + 16 * point + k] = taken < 0 ? 0x80 : taken
    }
  }
  // Of eight, of which two stand side by side.
  for (let point = 0; point <= 8; point++) {
    for (let k = 0; k < 8; k++) {
      const taken = point === 8 || k > point ? k : k - 1
      const at = memory.halfShuffles + 8 * point + k
      bytes[at] = taken < 0 ? 0x80 : taken
      bytes[at + 72] = taken < 0 ? 0x80 : taken + 8
    }
  }
  bytes.fill(0xff, memory.keeps + 16, memory.keeps + 32)
  // As vectors, in the order in which core/plain-lines.ts names them.
  const vectors = [[0x2b], [14], [0x20], [0x30], [0xfe], [0x76]].map((one) => Uint8Array.from(one))
  const wide = [[2561], [100, 1], [10_000, 1]].map((some) => Uint16Array.from(some))
  for (const [k, some] of [...vectors, ...wide].entries()) {
    const part = new Uint8Array(some.buffer)
    for (let at = 0; at < 16; at++) {
      bytes[memory.constants + 16 * k + at] = part[at % part.length] as number
    }
  }
  for (let code = 0; code < 1000; code++) {
    bytes[memory.counted + code] = isListedM(code) ? 1 : isMotionM(code) ? 2 : 0
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

/** Newer engines have it, and are faster. */
interface Base64 {
  readonly fromBase64?: (text: string) => Uint8Array
}

/**
 * Buffers of so many bytes, as many as there is room for (1.5 MiB), to read a file into: their slices need
 * not be copied once more. Null where there is no kernel, or while they are lent to another.
 */
export const borrowSlices = (bytes: number): BorrowedSlices | null =>
  plainLines()?.borrow(bytes) ?? null

const digits = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'

function fromBase64(text: string): Uint8Array {
  const engine: Base64 = Uint8Array as typeof Uint8Array & Base64
  if (engine.fromBase64 !== undefined) return engine.fromBase64(text)
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
