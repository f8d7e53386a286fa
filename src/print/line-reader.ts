/**
 * The reader's engine: complete lines in, feed, layers and beads out.
 *
 * A print file is some ten million lines, nearly all of them `G1 X… Y… E…`. `#run` reads such lines
 * straight from the bytes, with everything it needs in local variables, and stops at the first
 * line it does not know. `#odd` takes that line as text and does everything else: it is slow and
 * complete, `#run` is fast and knows only
 *
 *     [blanks] [N digits] G0|G1|G2|G3 {capital letter, [-]digits[.digits], blanks} [; …|* …] end
 *     M code that does not touch the draw, a remark, an empty line
 *
 * Whatever it is not sure of (a number of ten digits, an E after a digit, the same
 * letter twice, a NUL) it hands over untouched, so the two can not disagree: `#odd` reads the plain
 * lines too, and the tests send every case through both.
 *
 * Firmware families: one feed state stands for all families that agree (see FeedState). `#run`
 * keeps E, net and peak of the single state in local variables; while families disagree it calls
 * `#feedEach`. Every line that could split or join them goes through `#odd`.
 *
 * Invariant between lines: position, state and recorders describe everything before the line.
 * What must change together: `wordBits` and `#run`; listed-codes.ts and draw.md.
 *
 * Measured and rejected: regular expressions per line (12 times slower), one object per line,
 * skipping X and Y (5 % faster, but then no bead and no layer test), tables of digit pairs.
 */
import { applyCommand, type EUnit, parameter } from './apply-command.ts'
import { BeadSampler } from './bead.ts'
import { FeedState, toolColumn } from './feed-state.ts'
import { FindingLog } from './finding-log.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import { LayerFinder } from './layer-finder.ts'
import { type Command, codePart, lexLine, plainLexing, type Word } from './lex-line.ts'
import { isListedM, isLookedInto, knownNames } from './listed-codes.ts'
import { LoopStack } from './loop-stack.ts'
import { numberTooLarge, ReadStop } from './read-stop.ts'
import type { Stop } from './reading.ts'
import { Track } from './track.ts'

/** Longest line of machine code taken, bytes; remarks and texts may be longer. */
export const lineBudget = 65_536
const lineRunBudget = 64_000_000
const layerBudget = 200_000
const stopBudget = 10_000
/** Largest E number believed, mm: a thousand kilometres. */
const numberBudget = 1e9
/** Above this many mm to the mm³ or percent, every feed is checked. */
const usualFactor = 1e3
/** Rest of a longer line is dropped by some boards, bytes. */
const shortLine = 95
/** A single feed some boards refuse, mm. */
const longFeed = 200

const powersOfTen = Float64Array.from({ length: 10 }, (_, k) => 10 ** k)

const heatCodes: ReadonlySet<number> = new Set([109, 116, 190, 191])
const mixingCodes: ReadonlySet<number> = new Set([163, 164, 165, 166, 567])

const letterBit = (letter: string): number => 1 << (letter.charCodeAt(0) - 65)
const bitX = letterBit('X')
const bitY = letterBit('Y')
const bitZ = letterBit('Z')
const bitE = letterBit('E')
/** Where `#hot` keeps the words of the line, and what changes with every line. */
const wordE = 4
const wordX = 23
const wordY = 24
const wordZ = 25
const atX = 26
const atY = 27
const atZ = 28
const logicalE = 29
const net = 30
const peak = 31
/** Draw at which the curve's next row is due. */
const due = 32
const top = 33
const floor = 34
/** 1 while X, Y and Z are absolute millimetres. */
const plainAxes = 35
const hotSlots = 36
const axes = [
  ['X', atX],
  ['Y', atY],
  ['Z', atZ],
] as const

/** Words `#run` takes on a move. */
const wordBits =
  bitX | bitY | bitZ | bitE | [...'FIJKPQRS'].reduce((bits, letter) => bits | letterBit(letter), 0)

const LF = 10
const CR = 13

/** A feed state and a family it stands for, while a line is applied. */
interface Head {
  readonly family: FirmwareFamily
  readonly state: FeedState
}

export class LineReader {
  readonly findings: FindingLog = new FindingLog()
  readonly bead: BeadSampler = new BeadSampler()
  readonly stops: { -readonly [K in keyof Stop]: Stop[K] }[] = []
  readonly layers: LayerFinder
  tracks: Track[]
  readonly loops: LoopStack = new LoopStack()

  /** Lines read so far; the number of the last line. */
  line = 0
  /** Byte in the machine code of index 0 of the buffer being read. */
  base = 0
  /** The last buffer ended in CR: an LF at the start of the next one belongs to it. */
  afterCR = false
  sawCommand = false

  moves = 0
  extruding = 0
  arcs = 0
  retractions = 0
  firmwareRetractions = 0
  toolChanges = 0
  readonly macros: Map<string, number> = new Map()

  readonly #hot: Float64Array = new Float64Array(hotSlots)
  #axesInch = false
  #heatedAt = 0
  #arcsAtHeat = 0
  #extrudingArcs = 0
  #linesRun = 0
  readonly #families: readonly FirmwareFamily[]
  readonly #eUnit: EUnit

  constructor(families: readonly FirmwareFamily[], eUnit: EUnit, diameter: number) {
    this.#families = families
    this.#eUnit = eUnit
    const state = new FeedState(diameter)
    state.volumetric = eUnit === 'mm3'
    this.tracks = [new Track([...families], state)]
    this.layers = new LayerFinder((layer) => {
      if (layer >= layerBudget) {
        throw new ReadStop({
          code: 'too_many_layers',
          message: `More than ${layerBudget} layers. This is hardly a print: check how the file was made.`,
          line: this.line,
        })
      }
      for (const track of this.tracks) track.endLayer(layer)
    })
  }

  /** The track that decides layers and stops. */
  get #first(): Track {
    return this.tracks[0] as Track
  }

  get height(): number {
    return this.#hot[atZ] as number
  }

  /**
   * Reads complete lines.
   *
   * @param end - index after the last line's end
   * @throws ReadStop
   */
  read(buf: Uint8Array, from: number, end: number): void {
    let i = from
    if (this.afterCR && i < end) {
      this.afterCR = false
      if (buf[i] === LF) i++
      else this.findings.note('lone_cr', this.base + i, this.line)
    }
    this.loops.enter(buf, i)
    while (i < end) {
      i = this.#run(buf, i, end)
      if (i < end) i = this.#odd(buf, i, end)
    }
    this.loops.leave(buf, end)
  }

  /** Reads plain lines until the first odd one, and returns where that begins. */
  #run(buf: Uint8Array, from: number, end: number): number {
    const hot = this.#hot
    const single = this.tracks.length === 1
    const { scale, relative } = this.#first.state
    const factor = this.#first.state.factor()
    this.#load()
    let i = from
    let start = from

    scan: while (i < end) {
      start = i
      let c = buf[i] as number
      while (c === 32 || c === 9) c = buf[++i] as number
      if (c === 78) {
        i = afterLineNumber(buf, i)
        c = buf[i] as number
      }

      if (c === 71) {
        const kind = (buf[i + 1] as number) ^ 48
        i += 2
        if (kind > 3) {
          // G92 E… is the only other G that comes often.
          if (kind !== 9 || buf[i] !== 50) break
          i++
        }
        c = buf[i] as number
        if ((c ^ 48) < 10 || c === 46) break

        let seen = 0
        for (;;) {
          c = buf[i] as number
          if (c === 32 || c === 9) {
            i++
            continue
          }
          if (c < 65) {
            if (c === LF || c === CR || c === 59 || c === 42) break
            break scan
          }
          const letter = c
          const bit = 1 << (letter - 65)
          if (letter > 90 || (wordBits & bit) === 0 || (seen & bit) !== 0) break scan
          seen |= bit
          c = buf[++i] as number
          let sign = 1
          if (c === 45) {
            sign = -1
            c = buf[++i] as number
          }
          const digits = i
          let mantissa = 0
          while ((c ^= 48) < 10) {
            mantissa = (Math.imul(mantissa, 10) + c) | 0
            c = buf[++i] as number
          }
          let length = i - digits
          let decimals = 0
          if (c === 30) {
            const point = ++i
            c = buf[i] as number
            while ((c ^= 48) < 10) {
              mantissa = (Math.imul(mantissa, 10) + c) | 0
              c = buf[++i] as number
            }
            decimals = i - point
            length += decimals
          }
          if (length === 0 || length > 9) break scan
          // `X10E5`: one family reads 10E5.
          if (letter === 69 && ((buf[digits - 2 + (sign >> 1)] as number) ^ 48) < 10) break scan
          hot[letter - 65] = (sign * mantissa) / (powersOfTen[decimals] as number)
        }

        if (i - start > shortLine && !this.#longLine(i - start, this.base + start)) break
        if (c === 59 || c === 42) {
          i = afterRemark(buf, i)
          c = buf[i] as number
          if (c === 0) break
        }
        if (kind > 3) {
          if (seen !== bitE) break
          this.line++
          this.#origin(hot[wordE] as number)
        } else {
          this.line++
          this.moves++
          if (kind > 1) this.arcs++
          if (!single || hot[plainAxes] === 0) {
            this.#oddMove(seen, kind > 1, this.base + start)
          } else {
            const x = (seen & bitX) !== 0 ? (hot[wordX] as number) : (hot[atX] as number)
            const y = (seen & bitY) !== 0 ? (hot[wordY] as number) : (hot[atY] as number)
            const z = (seen & bitZ) !== 0 ? (hot[wordZ] as number) : (hot[atZ] as number)
            if ((seen & bitE) !== 0) {
              const target = (hot[wordE] as number) * scale
              const last = hot[logicalE] as number
              const feed = (relative ? target : target - last) * factor
              hot[logicalE] = relative ? last + target : target
              if (feed > 0) {
                const dx = x - (hot[atX] as number)
                const dy = y - (hot[atY] as number)
                const dz = z - (hot[atZ] as number)
                if (dx !== 0 || dy !== 0 || kind > 1) {
                  if (dz > 0 || z > (hot[top] as number) || z < (hot[floor] as number)) {
                    this.#lookForLayer(z, this.base + start)
                  }
                  this.#extruded(feed, dx, dy, dz, kind > 1)
                }
              } else if (feed < 0) this.retractions++
              const sum = (hot[net] as number) + feed
              hot[net] = sum
              if (sum > (hot[peak] as number)) {
                hot[peak] = sum
                if (sum >= (hot[due] as number)) this.#record(z, feed, this.base + start)
              }
            }
            hot[atX] = x
            hot[atY] = y
            hot[atZ] = z
          }
        }
      } else {
        i = this.#passOver(buf, i)
        if (i < 0) break
        c = buf[i] as number
        this.line++
      }

      // At the line's end: LF, CR LF, or CR.
      i++
      if (c === CR) i = this.#afterReturn(buf, i, end)
      start = i
    }
    this.#store()
    return start
  }

  /** Brings the single state's changing part into `#hot`. */
  #load(): void {
    const track = this.#first
    const { state } = track
    const hot = this.#hot
    hot[logicalE] = state.e
    hot[net] = state.get(toolColumn.net)
    hot[peak] = state.get(toolColumn.peak)
    hot[due] = track.nextRow()
    hot[top] = this.layers.top
    hot[floor] = this.layers.floor
    const plain = !state.axesRelative && !this.#axesInch && state.factor() < usualFactor
    hot[plainAxes] = plain ? 1 : 0
  }

  #store(): void {
    if (this.tracks.length > 1) return
    const { state } = this.#first
    state.e = this.#hot[logicalE] as number
    state.set(toolColumn.net, this.#hot[net] as number)
    state.set(toolColumn.peak, this.#hot[peak] as number)
  }

  #lookForLayer(z: number, byte: number): void {
    this.#store()
    this.layers.move(this.#hot[atZ] as number, z, byte, this.line)
    this.#hot[top] = this.layers.top
    this.#hot[floor] = this.layers.floor
  }

  /** Counts an extruding move and samples its bead: every move at first, then one in sixteen. */
  #extruded(feed: number, dx: number, dy: number, dz: number, arc: boolean): void {
    const count = ++this.extruding
    if (arc) this.#extrudingArcs++
    else if (count < 4096) this.bead.add(feed, dx, dy, dz, 1)
    else if ((count & 15) === 0) this.bead.add(feed, dx, dy, dz, 16)
  }

  #record(z: number, feed: number, byte: number): void {
    const recorder = this.#first.recorder()
    recorder.record(this.#hot[peak] as number, z, this.layers.count, byte)
    this.#hot[due] = recorder.next
    if (feed > longFeed) this.findings.note('long_feed', byte, this.line)
  }

  /** G92 with an E number, which all families take alike. */
  #origin(value: number): void {
    this.#store()
    this.#setUp(false)
    for (const { state } of this.tracks) state.e = value * state.scale
    this.#load()
  }

  /** A plain move in relative or inch coordinates, or while families disagree. */
  #oddMove(seen: number, arc: boolean, byte: number): void {
    const hot = this.#hot
    const unit = this.#axesInch ? 25.4 : 1
    const { axesRelative } = this.#first.state
    const to = (bit: number, word: number, at: number): number => {
      const from = hot[at] as number
      return (seen & bit) === 0 ? from : (axesRelative ? from : 0) + (hot[word] as number) * unit
    }
    const x = to(bitX, wordX, atX)
    const y = to(bitY, wordY, atY)
    const z = to(bitZ, wordZ, atZ)
    if ((seen & bitE) !== 0) {
      this.#store()
      this.#feedEach(hot[wordE] as number, x, y, z, arc, byte)
      this.#load()
    }
    hot[atX] = x
    hot[atY] = y
    hot[atZ] = z
  }

  /** Whether a plain line of this length may be taken; notes one that some boards cut. */
  #longLine(length: number, byte: number): boolean {
    if (length > lineBudget) return false
    this.findings.note('long_line', byte, this.line + 1)
    return true
  }

  /** Passes over a remark, an empty line or an M code that does not touch the draw; −1: another. */
  #passOver(buf: Uint8Array, from: number): number {
    let i = from
    let c = buf[i] as number
    if (c === LF || c === CR) return i
    if (c === 59) {
      i = afterRemark(buf, i)
      return buf[i] === 0 ? -1 : i
    }
    if (c !== 77) return -1
    let code = 0
    c = buf[++i] as number
    while ((c ^= 48) < 10) {
      code = (Math.imul(code, 10) + c) | 0
      c = buf[++i] as number
    }
    c ^= 48
    if (i - from < 2 || i - from > 5 || c === 46 || isListedM(code)) return -1
    i = afterRemark(buf, i)
    this.sawCommand = true
    return buf[i] === 0 ? -1 : i
  }

  #afterReturn(buf: Uint8Array, i: number, end: number): number {
    if (i === end) this.afterCR = true
    else if (buf[i] === LF) return i + 1
    else this.findings.note('lone_cr', this.base + i, this.line)
    return i
  }

  /** Feeds an E word through every track, the layer look-up coming first. */
  #feedEach(
    value: number,
    x: number,
    y: number,
    z: number,
    arc: boolean,
    byte: number,
  ): void {
    const feeds = this.tracks.map((track) => track.state.ask(value))
    this.#place(feeds[0] as number, x, y, z, arc, byte)
    this.tracks.forEach((track, k) => {
      track.state.feed(feeds[k] as number)
      track.record(track.state.tool, z, this.layers.count, byte)
    })
  }

  /** Counts a move by what the reference families feed on it, and looks for a layer. */
  #place(
    feed: number,
    x: number,
    y: number,
    z: number,
    arc: boolean,
    byte: number,
  ): void {
    const fromZ = this.#hot[atZ] as number
    const dx = x - (this.#hot[atX] as number)
    const dy = y - (this.#hot[atY] as number)
    if (feed > longFeed) this.findings.note('long_feed', byte, this.line)
    if (feed < 0) this.retractions++
    if (feed <= 0 || (dx === 0 && dy === 0 && !arc)) return
    this.layers.move(fromZ, z, byte, this.line)
    this.#extruded(feed, dx, dy, z - fromZ, arc)
  }

  /** Reads one line of any kind and returns where the next begins. */
  #odd(buf: Uint8Array, start: number, end: number): number {
    let stop = start
    while (buf[stop] !== LF && buf[stop] !== CR) stop++
    this.line++
    const text = textOf(buf, start, stop)
    this.#refuseBadLine(text, this.base + start)
    let next = stop + 1
    if (buf[stop] === CR) {
      if (next === end) this.afterCR = true
      else if (buf[next] === LF) next++
      else this.findings.note('lone_cr', this.base + next, this.line)
    }
    this.#readText(text, buf, start, next)
    return next
  }

  #refuseBadLine(text: string, byte: number): void {
    const nul = text.indexOf('\0')
    if (nul >= 0) {
      throw new ReadStop({
        code: 'nul_byte',
        message:
          'The file holds NUL bytes: it is damaged, half written, or no machine code. Export or copy it again.',
        at: byte + nul,
        line: this.line,
      })
    }
    if (text.length > lineBudget && overBudget(text)) throw tooLong(byte, this.line)
  }

  #readText(text: string, buf: Uint8Array, start: number, next: number): void {
    const lexed = new Map<string, Command[]>()
    const perFamily = this.#families.map((family) => {
      const key = `${family.exponents}${family.bracketEndsLine}${family.severalCommands}`
      let commands = lexed.get(key)
      if (commands === undefined) {
        commands = lexLine(text, family)
        lexed.set(key, commands)
      }
      return commands
    })
    const byte = this.base + start
    for (const command of perFamily[0] as Command[]) this.#remark(command, text, byte)
    const [plain] = lexLine(text, plainLexing)
    if (plain !== undefined && this.#loop(plain, buf, start, next)) return
    if (![...lexed.values()].some((commands) => commands.some(matters))) return
    if ([...lexed.values()].some((commands) => commands.some(movesOrSets))) {
      this.#remarkMove(text, byte)
    }
    for (const commands of lexed.values()) for (const each of commands) checkOrigin(each)
    this.#applyEach(perFamily, byte)
  }

  /** Applies a line's commands to each family's state, then joins the states that are equal. */
  #applyEach(perFamily: readonly Command[][], byte: number): void {
    const first = perFamily[0] as Command[]
    const alone = first.length === 1 ? first[0] : undefined
    const lexingsAgree = alone !== undefined && perFamily.every((list) => sameCommand(list, alone))
    if (alone !== undefined && lexingsAgree && isMove(alone)) {
      const heads = this.tracks.map(({ families, state }) => ({ family: families[0], state }))
      this.#move(heads as Head[], byte, () => alone)
      return
    }
    const origin = alone === undefined ? undefined : originOf(alone)
    if (origin !== undefined && lexingsAgree) {
      for (const { state } of this.tracks) state.e = origin * state.scale
      this.#followAxes(alone as Command)
      return
    }
    const heads = this.#families.map((family) => {
      const track = this.tracks.find((each) => each.families.includes(family)) as Track
      return { family, track, state: track.state.clone() }
    })
    const length = Math.max(...perFamily.map((list) => list.length))
    for (let k = 0; k < length; k++) {
      const command = first[k]
      if (command !== undefined && isMove(command)) {
        this.#move(heads, byte, (head) => perFamily[head]?.[k])
        continue
      }
      if (command !== undefined) this.#followAxes(command)
      heads.forEach((head, at) => {
        const own = perFamily[at]?.[k]
        if (own === undefined) return
        if (isMove(own)) feedMove(head, own)
        else applyCommand(head.state, head.family, own, this.#eUnit)
      })
    }
    this.#regroup(heads)
    this.#recordAll(byte)
  }

  #regroup(heads: readonly { family: FirmwareFamily; track: Track; state: FeedState }[]): void {
    const groups: Track[] = []
    const used = new Set<Track>()
    for (const { family, track, state } of heads) {
      const group = groups.find((each) => each.state.equals(state) && each.sharesPast(track))
      if (group !== undefined) {
        group.families.push(family)
      } else if (used.has(track)) {
        groups.push(track.fork([family], state))
      } else {
        used.add(track)
        track.families = [family]
        track.state = state
        groups.push(track)
      }
    }
    this.tracks = groups
  }

  /** One move for every state given; the first decides the position and the layers. */
  #move(
    heads: readonly Head[],
    byte: number,
    commandOf: (head: number) => Command | undefined,
  ): void {
    const hot = this.#hot
    const command = commandOf(0) as Command
    this.moves++
    const arc = command.code === 2 || command.code === 3
    if (arc) this.arcs++
    const { state } = heads[0] as Head
    const unit = this.#axesInch ? 25.4 : 1
    const to = (letter: string, from: number): number => {
      const value = command.words.get(letter)?.value
      if (value == null || !Number.isFinite(value)) return from
      return (state.axesRelative ? from : 0) + value * unit
    }
    const x = to('X', hot[atX] as number)
    const y = to('Y', hot[atY] as number)
    const z = to('Z', hot[atZ] as number)
    const feeds = heads.map((head, k) => {
      const own = commandOf(k)
      return own === undefined || !isMove(own) ? null : askMove(head, own)
    })
    this.#place(sum(feeds[0]), x, y, z, arc, byte)
    heads.forEach((head, k) => {
      const own = commandOf(k)
      const feed = feeds[k]
      if (feed != null) feedAll(head.state, feed)
      else if (own !== undefined) applyCommand(head.state, head.family, own, this.#eUnit)
    })
    hot[atX] = x
    hot[atY] = y
    hot[atZ] = z
    this.#recordAll(byte)
  }

  #recordAll(byte: number): void {
    for (const track of this.tracks) {
      for (let tool = 0; tool < track.state.tools; tool++) {
        track.record(tool, this.height, this.layers.count, byte)
      }
    }
  }

  /** Units and G92 of the axes, which all families read alike. */
  #followAxes({ letter, code, words }: Command): void {
    if (letter !== 'G') return
    if (code === 20) this.#axesInch = true
    else if (code === 21) this.#axesInch = false
    else if (code === 92) {
      const unit = this.#axesInch ? 25.4 : 1
      for (const [axis, at] of axes) {
        const value = words.get(axis)?.value
        if (value != null && Number.isFinite(value)) this.#hot[at] = value * unit
      }
    }
  }

  /** Notes what a person should know of a command, its stops and set-up steps. */
  #remark(command: Command, text: string, byte: number): void {
    const { letter, code } = command
    if (letter !== '') this.sawCommand = true
    if (letter === 'G') this.#remarkG(command, byte)
    else if (letter === 'M') this.#remarkM(command, text, byte)
    else if (letter === 'T') {
      if (code >= 100) this.#note('tool_macro', byte)
      else if (code >= 0 && code !== this.#first.state.tool) this.toolChanges++
    } else this.#remarkName(command, byte)
  }

  #remarkG({ code, words }: Command, byte: number): void {
    if (code === 20) this.#note('inch_mode', byte)
    else if (code === 10) {
      this.firmwareRetractions++
      this.#note('firmware_retraction', byte)
    } else if (code === 28 || Math.trunc(code) === 29) this.#setUp(true)
    else if (code === 92 && words.get('E')?.value != null) this.#setUp(false)
  }

  #remarkM(command: Command, text: string, byte: number): void {
    const { code, words } = command
    if (heatCodes.has(code)) this.#setUp(true)
    else if (code === 82 || code === 83) this.#setUp(false)
    else if (code === 600) {
      this.#stop('change', text, byte)
      this.#note('planned_change', byte)
    } else if (code === 0 || code === 1 || code === 25 || code === 226 || code === 601) {
      this.#stop('pause', text, byte)
    } else if (code === 2 || code === 30) this.#stop('end', text, byte)
    else if (code === 92 && words.has('E')) this.#note('feed_not_followed', byte)
    else if (mixingCodes.has(code)) this.#note('mixing', byte)
    else if (code === 98 || (code >= 810 && code <= 819)) this.#macro(`M${code}`, byte)
    else if (code === 209 && words.get('S')?.value === 1) this.#note('auto_retraction', byte)
    else if (code === 200 && (words.get('D')?.value ?? 0) > 0 && this.#eUnit === 'code') {
      this.#note('volumetric', byte)
      if (this.#families.some((family) => family.volumetric === 'none')) {
        this.#note('volumetric_ignored_by_host', byte)
      }
    }
  }

  #remarkName({ name, rest }: Command, byte: number): void {
    switch (name.toUpperCase()) {
      case 'PAUSE':
        this.#stop('pause', name, byte)
        return
      case 'CANCEL_PRINT':
        this.#stop('end', name, byte)
        return
      case 'SET_GCODE_OFFSET':
        if (parameter(rest, 'E') === undefined) return
        this.#note('feed_not_followed', byte)
        return
      case 'FORCE_MOVE':
      case 'SYNC_EXTRUDER_MOTION':
      case 'SET_EXTRUDER_ROTATION_DISTANCE':
        this.#note('feed_not_followed', byte)
        return
      default:
    }
    if (knownNames.has(name.toUpperCase())) this.sawCommand = true
    else if (/^(?:if|elif|else|while|var|set|global|echo|abort|break|continue|skip)\b/.test(name)) {
      this.#note('meta_commands', byte)
    } else if (/^[A-Z][A-Z0-9_]{2,}$/.test(name)) this.#macro(name, byte)
  }

  #macro(name: string, byte: number): void {
    if (this.macros.size < 64 || this.macros.has(name)) {
      this.macros.set(name, (this.macros.get(name) ?? 0) + 1)
    }
    this.#note('macro_calls', byte)
  }

  #note(code: Parameters<FindingLog['note']>[0], byte: number): void {
    this.findings.note(code, byte, this.line)
  }

  /** Oddities of a move line. */
  #remarkMove(text: string, byte: number): void {
    this.sawCommand = true
    const code = codePart(text)
    if (code.length > shortLine) this.#note('long_line', byte)
    if (code.includes('(')) this.#note('bracket_on_move', byte)
    if (/^g|[xyze][ \t]*[+-]?[\d.]/.test(code)) this.#note('lower_case', byte)
    if (/\dE[+-]?\d/i.test(code)) this.#note('dense_e', byte)
    if (/E[ \t]*[+-]?\d*\.\d*\./i.test(code)) this.#note('doubled_point', byte)
    if (/E[^E]*E/i.test(code)) this.#note('duplicate_word', byte)
    if (/[GM]\d[^GM]*[GM]\d/i.test(code)) this.#note('two_commands', byte)
  }

  #stop(kind: Stop['kind'], text: string, byte: number): void {
    if (kind === 'end') this.#note('ends_job', byte)
    if (this.stops.length >= stopBudget) return
    this.stops.push({
      kind,
      command: text.trim().slice(0, 32),
      byte,
      line: this.line,
      layer: this.layers.count,
      height_mm: this.height,
      draw_mm: this.#first.state.peaks(),
    })
  }

  /**
   * A set-up step: what was drawn so far is start macro, while it can be.
   *
   * @param hard - homing, probing, heating; else a change of E mode or origin
   */
  #setUp(hard: boolean): void {
    const since = this.extruding - this.#heatedAt
    const counts = hard
      ? this.extruding <= 64
      : since <= 16 && this.#extrudingArcs === this.#arcsAtHeat && this.layers.count <= 1
    if (!counts) return
    if (hard) {
      this.#heatedAt = this.extruding
      this.#arcsAtHeat = this.#extrudingArcs
    }
    this.layers.forget()
    this.bead.forget()
    for (const track of this.tracks) track.forgetLayers()
    for (const stop of this.stops) stop.layer = 0
  }

  /** Opens, closes and replays loops; true when the line was one of theirs. */
  #loop(command: Command, buf: Uint8Array, start: number, next: number): boolean {
    const mark = loopMark(command)
    if (mark === null) return false
    this.sawCommand = true
    const byte = this.base + start
    this.#note('loop', byte)
    if (mark.opens) {
      this.loops.open({
        times: mark.times,
        buf,
        from: next,
        byte: this.base + next,
        line: this.line,
        linesRun: this.#linesRun,
      })
      return true
    }
    const loop = this.loops.close(buf, start)
    if (loop === null) return true
    const pass = this.#linesRun - loop.linesRun + this.line - loop.line
    if (this.#linesRun + pass * (loop.times - 1) > lineRunBudget) {
      throw new ReadStop({
        code: 'too_many_lines',
        message: `The file's loops run more than ${lineRunBudget / 1e6} million lines: check the counts.`,
        line: loop.line,
      })
    }
    const after = { line: this.line, base: this.base, afterCR: this.afterCR }
    this.afterCR = false
    for (let k = 1; k < loop.times; k++) {
      this.line = loop.line
      this.base = loop.byte
      this.read(loop.body, 0, loop.body.length)
    }
    this.#linesRun = loop.linesRun + pass * (loop.times - 1)
    Object.assign(this, after)
    return true
  }
}

const isMove = ({ letter, code }: Command): boolean =>
  letter === 'G' && (code === 0 || code === 1 || code === 2 || code === 3 || code === 5)

const movesOrSets = (command: Command): boolean =>
  isMove(command) || (command.letter === 'G' && command.code === 92)

const drawG: ReadonlySet<number> = new Set([0, 1, 2, 3, 5, 10, 11, 20, 21, 90, 91, 92])

function matters({ letter, code }: Command): boolean {
  if (letter === 'G') return drawG.has(code)
  return letter !== 'M' || isListedM(code)
}

/** The E number of a G92, which all families take alike. */
const originOf = ({ letter, code, words }: Command): number | undefined =>
  letter === 'G' && code === 92 ? (words.get('E')?.value ?? undefined) : undefined

function sameCommand(list: readonly Command[], alone: Command): boolean {
  const only = list[0] as Command
  if (only === alone) return true
  if (list.length !== 1 || only.code !== alone.code || only.letter !== alone.letter) return false
  if (only.words.size !== alone.words.size) return false
  for (const [letter, word] of alone.words) {
    const other = only.words.get(letter)
    if (other === undefined || other.value !== word.value || word.list !== undefined) return false
  }
  return true
}

/** What a move's E word asks of each drive; null without an E word. */
function askMove({ state, family }: Head, { words }: Command): number[] | null {
  const word = words.get('E')
  if (word === undefined) return null
  checkE(word)
  if (word.list !== undefined && state.relative && family.splitsLists) {
    state.e += (word.value as number) * state.scale
    return word.list.map((each, drive) => each * state.scale * state.factor(drive))
  }
  return [state.ask(word.value as number)]
}

function checkE(word: Word): void {
  if (word.expression) {
    throw new ReadStop({
      code: 'expression',
      message:
        'E is an expression that only the machine can work out, so the draw can not be read. Export the print without expressions.',
    })
  }
  if (word.value === null) {
    throw new ReadStop({
      code: 'e_without_number',
      message:
        'An E stands without a number; firmware differs in what it does then. The file may be damaged: export it again.',
    })
  }
  if ([word.value, ...(word.list ?? [])].some((value) => !(Math.abs(value) < numberBudget))) {
    throw numberTooLarge()
  }
}

/** A G92 may name E without a number, but not with one that is no number of E. */
function checkOrigin({ letter, code, words }: Command): void {
  const word = letter === 'G' && code === 92 ? words.get('E') : undefined
  if (word !== undefined && (word.expression || word.value !== null)) checkE(word)
}

function feedAll(state: FeedState, feeds: readonly number[]): void {
  if (feeds.length === 1) state.feed(feeds[0] as number)
  else feeds.forEach((feed, drive) => state.feed(feed, drive))
}

function feedMove(head: Head, command: Command): void {
  const feeds = askMove(head, command)
  if (feeds !== null) feedAll(head.state, feeds)
}

const sum = (feeds: readonly number[] | null | undefined): number =>
  feeds?.reduce((a, b) => a + b, 0) ?? 0

function loopMark({ letter, code, words, name, rest }: Command):
  | { opens: boolean; times: number }
  | null {
  if (letter === 'M' && code === 808) {
    return { opens: words.has('L'), times: words.get('L')?.value ?? 0 }
  }
  if (letter !== '') return null
  const upper = name.toUpperCase()
  if (upper === 'SDCARD_LOOP_BEGIN') {
    return { opens: true, times: Number.parseFloat(parameter(rest, 'COUNT') ?? '0') }
  }
  return upper === 'SDCARD_LOOP_END' ? { opens: false, times: 0 } : null
}

/** Index of the line's end after a remark, or of a NUL in it. */
function afterRemark(buf: Uint8Array, from: number): number {
  let i = from
  let c = buf[i] as number
  while (c !== LF && c !== CR && c !== 0) c = buf[++i] as number
  return i
}

/** Index after `N`, its digits and the blanks behind them. */
function afterLineNumber(buf: Uint8Array, from: number): number {
  let i = from + 1
  while (((buf[i] as number) ^ 48) < 10) i++
  while (buf[i] === 32 || buf[i] === 9) i++
  return i
}

function textOf(buf: Uint8Array, from: number, to: number): string {
  let text = ''
  for (let i = from; i < to; i += 8192) {
    text += String.fromCharCode(...buf.subarray(i, Math.min(i + 8192, to)))
  }
  return text
}

/** Whether a line of code that counts is longer than the budget, remark not counted. */
export function overBudget(text: string): boolean {
  if (text.length <= lineBudget || text.replace(/;.*$/s, '').length <= lineBudget) return false
  const [command] = lexLine(text.slice(0, 1024).trimEnd(), plainLexing)
  if (command === undefined) return false
  if (command.letter === 'M') return isListedM(command.code)
  return command.letter !== '' || knownNames.has(command.name.toUpperCase())
}

/** The refusal of a line over the budget. */
export const tooLong = (byte: number, line: number): ReadStop =>
  new ReadStop({
    code: 'line_too_long',
    message: `A line of machine code is longer than ${lineBudget} bytes: this is hardly a print. Check the file.`,
    at: byte,
    line,
  })
