import { beadFeed } from './bead-feed.ts'
import { LineBuffer } from './line-buffer.ts'

/** What is known of a big print without reading it, exact to the last decimal written. */
export interface BigPrintTruth {
  /** What the reel must supply, mm. */
  readonly peak_mm: number
  /** Where the net feed ends, mm. */
  readonly net_mm: number
  readonly startMacro_mm: number
  readonly layers: number
  readonly height_mm: number
  readonly bytes: number
}

/** How a big print is written. */
export interface BigPrintOptions {
  /** Any 32-bit number; the same gives the same bytes. Default 1. */
  readonly seed?: number
  /** Default `relative`; absolute sets E to 0 at every layer. */
  readonly eMode?: 'absolute' | 'relative'
}

// Lengths in the code are whole micrometres, feeds whole units of 10 nm (five decimals of a mm).
const eUnitsPerMm = 1e5
const eUnitsPerUm = (beadFeed(0.45, 0.2) * eUnitsPerMm) / 1000
const layerHeight_um = 200
const retraction = 0.8 * eUnitsPerMm
const bead_um = 450
const chords = 360
const perimeters = 3
const fillSpacing_um = 1350
const chunkBytes = 1 << 18
/** More than the longest stretch written between two looks at the buffer: one island. */
const slackBytes = 1 << 17
const longestLine = 48

const modes = '; drawn by the Reelreckon demo generator\n; big print\nG21\nG90\n'
const startMacro = [
  'M140 S60',
  'M104 S215',
  'G28',
  'M190 S60',
  'M109 S215',
  'G92 E0',
  'G0 Z0.300',
  'G0 X5.000 Y20.000 F9000',
  'G1 X5.000 Y140.000 E15.00000 F1200',
  'G92 E0',
  '',
].join('\n')
const startFeed = 15 * eUnitsPerMm
const endMacro = 'M107\nM104 S0\nM140 S0\nG0 X10.000 Y200.000 F9000\nM84\n'
const endPull = 3 * eUnitsPerMm

// One circle and one wavy profile are computed once; islands pick their own phase and depth.
const cosines = new Float64Array(chords + 1)
const sines = new Float64Array(chords + 1)
for (let chord = 0; chord <= chords; chord += 1) {
  const angle = (2 * Math.PI * (chord % chords)) / chords
  cosines[chord] = Math.cos(angle)
  sines[chord] = Math.sin(angle)
}

/** Writes moves of one print into the buffer and counts what they feed, in whole units. */
class Pen {
  readonly out = new LineBuffer(chunkBytes + slackBytes)
  readonly absolute: boolean
  net = 0
  peak = 0
  register = 0
  x = 0
  y = 0
  layers = 0
  layerDrawn = false
  /** Bytes that may still be written before the end macro must begin. */
  room: number

  constructor(absolute: boolean, room: number) {
    this.absolute = absolute
    this.room = room
  }

  /** False when the next line might not fit any more. */
  get hasRoom(): boolean {
    return this.out.length + longestLine <= this.room
  }

  feed(units: number): void {
    this.net += units
    if (this.net > this.peak) this.peak = this.net
    this.register = this.absolute ? this.register + units : units
    this.out.text(' E').fixed(this.register, 5)
  }

  draw(x: number, y: number): void {
    const dx = x - this.x
    const dy = y - this.y
    this.x = x
    this.y = y
    this.out.text('G1 X').fixed(x, 3).text(' Y').fixed(y, 3)
    this.feed(Math.round(Math.sqrt(dx * dx + dy * dy) * eUnitsPerUm))
    this.out.newline()
    if (!this.layerDrawn) {
      this.layerDrawn = true
      this.layers += 1
    }
  }

  /** Retracts, travels, takes it back and sets the speed: all or nothing. */
  hop(x: number, y: number, speed: number): boolean {
    if (this.out.length + 4 * longestLine > this.room) return false
    this.x = x
    this.y = y
    this.out.text('G1')
    this.feed(-retraction)
    this.out.text(' F2400\nG0 X').fixed(x, 3).text(' Y').fixed(y, 3).text(' F9000\nG1')
    this.feed(retraction)
    this.out.text(' F2400\nG1 F').integer(speed).newline()
    return true
  }
}

/** A wavy round island of a few thousand lines. Returns false when room ran out. */
const drawIsland = (
  pen: Pen,
  centreX: number,
  centreY: number,
  radius: number,
  phase: number,
  alongX: boolean,
): boolean => {
  for (let ring = 0; ring < perimeters; ring += 1) {
    const inner = radius - ring * bead_um
    const at = (chord: number): number =>
      inner * (1 + 0.04 * (cosines[(chord * 7 + phase) % chords] ?? 0))
    if (!pen.hop(Math.round(centreX + at(0)), centreY, 1800)) return false
    for (let chord = 1; chord <= chords; chord += 1) {
      if (!pen.hasRoom) return false
      const r = at(chord)
      pen.draw(
        Math.round(centreX + r * (cosines[chord] ?? 0)),
        Math.round(centreY + r * (sines[chord] ?? 0)),
      )
    }
  }
  const reach = radius * 0.96 - perimeters * bead_um
  const strokes = Math.floor((2 * reach) / fillSpacing_um) - 1
  for (let stroke = 1; stroke <= strokes; stroke += 1) {
    const across = stroke * fillSpacing_um - reach
    const half = Math.sqrt(reach * reach - across * across)
    const from = Math.round(stroke % 2 === 0 ? half : -half)
    const side = Math.round(across)
    const [x0, x1] = alongX ? [centreX + from, centreX - from] : [centreX + side, centreX + side]
    const [y0, y1] = alongX ? [centreY + side, centreY + side] : [centreY + from, centreY - from]
    if (stroke === 1) {
      if (!pen.hop(x0, y0, 3600)) return false
    } else {
      if (!pen.hasRoom) return false
      pen.draw(x0, y0)
    }
    if (!pen.hasRoom) return false
    pen.draw(x1, y1)
  }
  return true
}

/** Comment lines of so many bytes together; nothing when there is no room left. */
const writeFilling = (out: LineBuffer, bytes: number): void => {
  for (let rest = bytes; rest > 0; ) {
    const line = Math.min(rest, longestLine)
    out.text(`${';'.padEnd(line - 1, '-').slice(0, line - 1)}\n`)
    rest -= line
  }
}

/** Numbers from 0 to 2³² − 1 that look random: xorshift32. */
const makeRandom = (seed: number): (() => number) => {
  let state = seed >>> 0 || 1
  return () => {
    state ^= state << 13
    state ^= state >>> 17
    state ^= state << 5
    state >>>= 0
    return state
  }
}

/**
 * A large print as a stream of bytes: nine wavy islands in every layer, three perimeters of short
 * chords and a zigzag each, retractions between them, speeds and fan now and then. Lines are 28 to
 * 32 bytes long in the mean. Memory does not grow with the size.
 *
 * Lengths are added up from the rounded numbers as they are written, in whole units, so that the
 * truth is exact whatever the size.
 *
 * @param targetBytes - size of the file, met exactly by a closing comment; below 1000 the print is
 *   its macros alone, however long they are
 * @returns as the generator's return value, what the file draws
 */
export function* bigPrint(
  targetBytes: number,
  options: BigPrintOptions = {},
): Generator<Uint8Array<ArrayBuffer>, BigPrintTruth> {
  const absolute = options.eMode === 'absolute'
  const random = makeRandom(options.seed ?? 1)
  const ending = longestLine + endMacro.length
  const pen = new Pen(absolute, targetBytes - ending)
  pen.out
    .text(modes)
    .text(absolute ? 'M82\n' : 'M83\n')
    .text(startMacro)
  pen.net = startFeed
  pen.peak = startFeed
  let bytes = 0
  let going = pen.hasRoom
  for (let layer = 1; going; layer += 1) {
    pen.layerDrawn = false
    pen.out
      .text('G0 Z')
      .fixed(layer * layerHeight_um, 3)
      .newline()
    if (absolute) pen.out.text('G92 E0\n')
    pen.register = 0
    if (layer % 8 === 2)
      pen.out
        .text('M106 S')
        .integer(127 + (random() % 128))
        .newline()
    for (let island = 0; island < 9 && going; island += 1) {
      const centreX = 50_000 + (island % 3) * 60_000
      const centreY = 50_000 + Math.floor(island / 3) * 60_000
      const radius = 24_000 + (random() % 2000)
      going = drawIsland(pen, centreX, centreY, radius, random() % chords, layer % 2 === 0)
      if (pen.out.length >= chunkBytes) {
        bytes += pen.out.length
        pen.room -= pen.out.length
        yield pen.out.take()
      }
    }
  }
  pen.out.text('G1')
  pen.feed(-endPull)
  pen.out.text(' F2400\n').text(endMacro)
  writeFilling(pen.out, targetBytes - bytes - pen.out.length)
  bytes += pen.out.length
  yield pen.out.take()
  return {
    peak_mm: pen.peak / eUnitsPerMm,
    net_mm: pen.net / eUnitsPerMm,
    startMacro_mm: startFeed / eUnitsPerMm,
    layers: pen.layers,
    height_mm: (pen.layers * layerHeight_um) / 1000,
    bytes,
  }
}
