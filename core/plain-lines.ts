/**
 * The reader's hot loop, in AssemblyScript: plain lines of machine code to feed, and nothing else.
 *
 * A print file is some ten million lines, nearly all of them `G1 X… Y… E…`. This kernel reads such
 * lines and stops at the first line it does not know, which `src/print/line-reader.ts` then takes as
 * text: slowly and completely. What is plain here:
 *
 *     [blanks] [N digits] G0|G1|G2|G3 {capital letter, [-]digits[.digits], blanks} [; …|* …] end
 *     [blanks] G92 E number end      M code that does not count      a remark      an empty line
 *
 * Whatever it is not sure of (a tab, a plus sign, the same letter twice, an E directly behind a
 * digit, sixteen digits, a NUL) it leaves to the line reader untouched, which can read plain lines
 * too; so the two can not disagree, and the tests send every case through both.
 *
 * Two stages. `index` marks every byte that is neither part of a number nor a blank, sixty-four at a
 * time, and writes down where they stand: letters, line ends, remark signs. `run` goes from mark to
 * mark. E and Z between two marks are turned into a value eight characters at once; X and Y are only
 * remembered where they stand, and made a value when a bead is sampled or the height changes; unless
 * the silhouette is asked for, which needs them all. Of the silhouette only the row at hand is here,
 * as bits: a move that leaves the row, or its columns, is handed over to `silhouette-grid.ts`, which
 * then sets another row.
 *
 * Memory, shared with `src/print/plain-lines.ts`, which holds the same addresses:
 *
 *     0       f64 × 64   `hot`: words of the line by letter (A = 0), then the slots below
 *     512     f64 × 16   powers of ten
 *     640     u32        how many moves stand below that were not yet taken, while timing
 *     1024    u8 × 1024  1 where an M code counts, 2 where it counts for time alone
 *     4096    u8         the window of lines, at most 64 KiB, and 128 bytes of line ends
 *     73728   u32        marks, one for each byte at most
 *     339968  f64 × 5    moves for the planner, 1024 at most: ways along X, Y, Z, feed, speed
 *
 * Tried and slower: the same loop byte by byte in TypeScript, and here; the eight-characters number
 * without marks (each word waits for the one before); all words turned into values at once.
 */

const hotX = 23
const hotY = 24
const hotZ = 25
const hotE = 4
const atX = 26
const atY = 27
const atZ = 28
const logicalE = 29
const net = 30
const peak = 31
const due = 32
const top = 33
const floor = 34
const line = 35
const extruding = 36
const moves = 37
const arcs = 38
const retractions = 39
const extrudingArcs = 40
const commands = 41
/** Heights of the silhouette's row at hand: above the first, up to the second. */
const rowFrom = 42
const rowTo = 43
/** Of each side view: columns to the mm, the first column there is, how many, and 256 bits. */
const viewX = 44
const viewY = 51

const powers: usize = 512
const counted: usize = 1024
const marks: usize = 73728
const pending: usize = 640
const timedMoves: usize = 339968
const timedBudget: u32 = 1024
const wordF = 5

const bitX: u32 = 1 << 23
const bitY: u32 = 1 << 24
const bitZ: u32 = 1 << 25
const bitE: u32 = 1 << 4
/** F I J K P Q R S besides. */
const plainWords: u32 =
  bitX | bitY | bitZ | bitE | (1 << 5) | (1 << 8) | (1 << 9) | (1 << 10) | (1 << 15) | (1 << 16) | (1 << 17) | (1 << 18)

const LF = 10
const CR = 13
/** Larger numbers of E are refused; the line reader says so. */
const numberBudget = 1e9
const shortLine: usize = 95
/** So many extruding moves are all sampled, later ones one in 256. */
const alwaysSampled = 4096
const sampledOf = 256
/** A single feed that some boards refuse, mm. */
const longFeed: f64 = 200
/** `G0 X` in memory, and ` E`. */
const startOfMove: u32 = 0x58203047
const blankE: u16 = 0x4520

// What the line reader does when something happens that is not every line's business.
@external('on', 'layer') declare function onLayer(height: f64, at: i32): void
@external('on', 'row') declare function onRow(height: f64, at: i32): void
@external('on', 'longFeed') declare function onLongFeed(at: i32): void
@external('on', 'bead') declare function onBead(feed: f64, dx: f64, dy: f64, dz: f64, stands: i32): void
@external('on', 'origin') declare function onOrigin(value: f64): void
@external('on', 'move') declare function onMove(seen: u32, arc: i32, at: i32): void
@external('on', 'longLine') declare function onLongLine(at: i32): void
@external('on', 'loneCR') declare function onLoneCR(at: i32): void
@external('on', 'draws') declare function onDraws(seen: u32, arc: i32): void
@external('on', 'timed') declare function onTimed(): void
@external('on', 'timedArc') declare function onTimedArc(seen: u32, arc: i32, feed: f64): void

@inline function byte(at: usize): u32 {
  return <u32>load<u8>(at)
}

@inline function mark(cursor: usize): usize {
  return <usize>load<u32>(cursor)
}

@inline function get(slot: i32): f64 {
  return load<f64>(<usize>(slot << 3))
}

@inline function set(slot: i32, value: f64): void {
  store<f64>(<usize>(slot << 3), value)
}

let cursor: usize = marks

/**
 * Marks a window of whole lines. What stands behind `end` must be line ends for 128 bytes.
 */
export function index(from: usize, end: usize): void {
  let out = marks
  for (let at = from; at < end; at += 64) {
    let mask =
      bits(v128.load(at)) |
      (bits(v128.load(at, 16)) << 16) |
      (bits(v128.load(at, 32)) << 32) |
      (bits(v128.load(at, 48)) << 48)
    let next = out
    out += <usize>popcnt(mask) << 2
    const base = <u32>at
    // Four at a time; what is written past the last one is written over by the next round.
    while (mask != 0) {
      store<u32>(next, base + <u32>ctz(mask))
      mask &= mask - 1
      store<u32>(next, base + <u32>ctz(mask), 4)
      mask &= mask - 1
      store<u32>(next, base + <u32>ctz(mask), 8)
      mask &= mask - 1
      store<u32>(next, base + <u32>ctz(mask), 12)
      mask &= mask - 1
      next += 16
    }
  }
  store<u32>(out, <u32>end)
  cursor = marks
}

/** Bits of the bytes that are no blank and not from `+` to `9`: digits, signs, point, `,` and `/`. */
@inline function bits(bytes: v128): u64 {
  const numeric = i8x16.le_u(i8x16.sub(bytes, i8x16.splat(0x2b)), i8x16.splat(0x39 - 0x2b))
  const plain = v128.or(numeric, i8x16.eq(bytes, i8x16.splat(0x20)))
  return <u64>(<u32>i8x16.bitmask(v128.not(plain)) & 0xffff)
}

/** Flags in the high nibble of every byte that is no digit, of eight characters less '0'. */
@inline function noDigits(x: u64): u64 {
  return ((x + 0x0606060606060606) | x) & 0xf0f0f0f0f0f0f0f0
}

const zeros: u64 = 0x3030303030303030

/**
 * The number of the word at `p` whose next mark is at `q`; NaN when it is not a plain one.
 * `[-]` digits `[.digits]` of at most eight characters here, fifteen digits in `longNumber`.
 */
@inline function number(p: usize, q: usize): f64 {
  const minus: usize = byte(p + 1) == 45 ? 1 : 0
  const from = p + 1 + minus
  const text = load<u64>(from)
  const x = text ^ zeros
  const flags = noDigits(x)
  const point = ctz(flags) & 0x78
  const size = ctz(flags & ~(<u64>0xff << point)) & 0x78
  const end = from + <usize>(size >> 3)
  if (
    flags != 0 &&
    ((text >> point) & 0xff) == 46 &&
    size > 8 &&
    (end == q || (end + 1 == q && byte(end) == 32))
  ) {
    const before = (<u64>1 << point) - 1
    // The digits without the point, pushed to the left: what is missing counts as leading zeros.
    let digits = ((x & before) | ((x >> 8) & ~before)) << (72 - size)
    digits = (digits * 2561) >> 8
    digits = ((digits & 0x00ff00ff00ff00ff) * 6553601) >> 16
    digits = ((digits & 0x0000ffff0000ffff) * 42949672960001) >> 32
    const value = <f64>(<i64>digits) / load<f64>(powers + <usize>(size - 8 - point))
    return minus ? -value : value
  }
  return longNumber(from, q, minus)
}

function longNumber(from: usize, q: usize, minus: usize): f64 {
  let at = from
  let mantissa: i64 = 0
  let digits = 0
  let decimals: usize = 0
  let c = byte(at)
  while ((c ^ 48) < 10) {
    mantissa = mantissa * 10 + <i64>(c ^ 48)
    digits++
    c = byte(++at)
  }
  if (c == 46) {
    c = byte(++at)
    while ((c ^ 48) < 10) {
      mantissa = mantissa * 10 + <i64>(c ^ 48)
      digits++
      decimals++
      c = byte(++at)
    }
  }
  if (digits == 0 || digits > 15) return NaN
  while (at < q && byte(at) == 32) at++
  if (at != q) return NaN
  const value = <f64>mantissa / load<f64>(powers + (decimals << 3))
  if (value >= numberBudget) return NaN
  return minus ? -value : value
}

@inline function blank(from: usize, to: usize): bool {
  while (from < to && byte(from) == 32) from++
  return from >= to
}

function digitsAndBlanks(from: usize, to: usize): bool {
  const first = from
  while (from < to && (byte(from) ^ 48) < 10) from++
  return from > first && blank(from, to)
}

/** The code of an M command, of at most four digits; -1 when it is none or a sub-code. */
function codeAt(from: usize, to: usize): i32 {
  const first = from
  let code = 0
  while (from < to && (byte(from) ^ 48) < 10) code = code * 10 + <i32>(byte(from++) ^ 48)
  if (from == first || from - first > 4) return -1
  return from == to || byte(from) == 32 ? code : -1
}

/**
 * Whether the word at `p` begins with a plain number of sensible size: all that is asked of X and Y
 * until their value is needed.
 */
@inline function isAxisWord(p: usize, q: usize): bool {
  const first = byte(p + 1)
  return ((first ^ 48) < 10 || (first == 45 && (byte(p + 2) ^ 48) < 10)) && q - p < 17
}

/** The number that an axis word begins with. */
function axisNumber(p: usize): f64 {
  const minus: usize = byte(p + 1) == 45 ? 1 : 0
  let at = p + 1 + minus
  let mantissa: i64 = 0
  let decimals: usize = 0
  let c = byte(at)
  while ((c ^ 48) < 10) {
    mantissa = mantissa * 10 + <i64>(c ^ 48)
    c = byte(++at)
  }
  if (c == 46) {
    c = byte(++at)
    while ((c ^ 48) < 10) {
      mantissa = mantissa * 10 + <i64>(c ^ 48)
      decimals++
      c = byte(++at)
    }
  }
  const value = <f64>mantissa / load<f64>(powers + (decimals << 3))
  return minus ? -value : value
}

/** The number of an axis word whose next mark is at `q`. */
@inline function axisValue(p: usize, q: usize): f64 {
  const value = number(p, q)
  return value == value ? value : axisNumber(p)
}

/**
 * Marks what a straight move passes in the silhouette's row at hand, in both side views. False when
 * it leaves the row or its columns: then it is the line reader's.
 */
@inline function markMove(x: f64, toX: f64, y: f64, toY: f64, z: f64, toZ: f64): bool {
  const below = get(rowFrom)
  const above = get(rowTo)
  if (!(z > below && z <= above && toZ > below && toZ <= above)) return false
  return markRun(viewX, x, toX) && markRun(viewY, y, toY)
}

@inline function markRun(view: i32, from: f64, to: f64): bool {
  const perMm = get(view)
  const start = Math.floor(from * perMm) - get(view + 1)
  const stop = Math.floor(to * perMm) - get(view + 1)
  const count = get(view + 2)
  if (!(start >= 0 && start < count && stop >= 0 && stop < count)) return false
  const a = start < stop ? <u32>start : <u32>stop
  const b = start < stop ? <u32>stop : <u32>start
  const bits: usize = <usize>(view + 3) << 3
  const lastWord = b >> 6
  let low = ~(<u64>0) << (a & 63)
  for (let word = a >> 6; word < lastWord; word++) {
    const at = bits + (word << 3)
    store<u64>(at, load<u64>(at) | low)
    low = ~(<u64>0)
  }
  const at = bits + (lastWord << 3)
  store<u64>(at, load<u64>(at) | (low & (~(<u64>0) >> (63 - (b & 63)))))
  return true
}

/** Writes a move down for the planner; an arc is handed over. */
@inline function timeMove(
  seen: u32,
  kind: u32,
  x: f64,
  toX: f64,
  y: f64,
  toY: f64,
  z: f64,
  toZ: f64,
  feed: f64,
): void {
  if (kind > 1) {
    set(atX, x)
    set(atY, y)
    set(atZ, z)
    set(hotX, toX)
    set(hotY, toY)
    set(hotZ, toZ)
    onTimedArc(seen, kind, feed)
    return
  }
  const count = load<u32>(pending)
  const at = timedMoves + <usize>(count * 40)
  store<f64>(at, toX - x)
  store<f64>(at, toY - y, 8)
  store<f64>(at, toZ - z, 16)
  store<f64>(at, feed, 24)
  store<f64>(at, get(wordF), 32)
  store<u32>(pending, count + 1)
  if (count + 1 == timedBudget) onTimed()
}

/**
 * Reads lines from `from`, where a line of the window marked last begins, and returns where the
 * first odd line begins, or `end`.
 *
 * @param plain - 0: every move is handed over as it stands (relative axes, inches, families apart)
 * @param drawing - not 0: the silhouette is asked for
 * @param timing - not 0: the time is asked for
 */
export function run(
  from: usize,
  end: usize,
  plain: i32,
  drawing: i32,
  timing: i32,
  relative: i32,
  scale: f64,
  factor: f64,
): usize {
  if (timing) {
    return drawing
      ? readLines<DrawingTiming>(from, end, plain, relative, scale, factor)
      : readLines<Timing>(from, end, plain, relative, scale, factor)
  }
  return drawing
    ? readLines<Drawing>(from, end, plain, relative, scale, factor)
    : readLines<Neither>(from, end, plain, relative, scale, factor)
}

// The loop is compiled for each, so that a reading without silhouette or time pays nothing for it
// (2 % else): eight bytes where it draws, a float where it times.
type Drawing = u64
type Neither = u32
type DrawingTiming = f64
type Timing = f32

function readLines<T>(
  from: usize,
  end: usize,
  plain: i32,
  relative: i32,
  scale: f64,
  factor: f64,
): usize {
  const drawing = sizeof<T>() == sizeof<Drawing>()
  const timing = isFloat<T>()
  /** X and Y are made values at once. */
  const placing = drawing || timing
  const counting: u32 = timing ? 3 : 1
  let start = from
  let at = cursor
  while (mark(at) < from) at += 4
  // X and Y are where their last word says, or, while that is 0, at the value kept.
  let wordX: usize = 0
  let wordY: usize = 0
  let x = get(atX)
  let y = get(atY)
  let z = get(atZ)
  let e = get(logicalE)
  let sum = get(net)
  let most = get(peak)
  let row = get(due)
  let up = get(top)
  let down = get(floor)
  let lines = <i64>get(line)
  let extruded = <i64>get(extruding)
  let moved = <i64>get(moves)
  let back = <i64>get(retractions)
  let untilSample = extruded < alwaysSampled ? 1 : sampledOf - (<i32>extruded & (sampledOf - 1))
  /** Whether the nozzle stands outside the band of heights: the next extruding move is looked at. */
  let outside = true

  while (start < end) {
    let p = mark(at)
    let c: u32 = 0
    let kind: u32 = 0
    let seen: u32 = 0
    let toX: usize = 0
    let toY: usize = 0
    let toZ = z
    /** Values of the words at `toX` and `toY`, while placing. */
    let valueX: f64 = 0
    let valueY: f64 = 0
    let word: f64 = 0
    let isMove = false

    // The line that nearly all lines are: `G1 X… Y… E…`, or G0, and nothing else.
    if (p == start && (load<u32>(p) & ~(<u32>0x100)) == startOfMove) {
      const y = mark(at + 8)
      const eWord = mark(at + 12)
      const lineEnd = mark(at + 16)
      if (byte(y) == 89 && load<u16>(eWord - 1) == blankE && byte(lineEnd) == LF) {
        word = number(eWord, lineEnd)
        if (
          word == word &&
          isAxisWord(p + 3, y) &&
          isAxisWord(y, eWord) &&
          lineEnd - start <= shortLine
        ) {
          toX = p + 3
          toY = y
          seen = bitX | bitY | bitE
          if (placing) {
            valueX = axisValue(toX, y)
            valueY = axisValue(y, eWord)
          }
          at += 16
          p = lineEnd
          c = LF
          isMove = true
        }
      }
    }

    if (!isMove) {
      if (p != start && !blank(start, p)) break
      c = byte(p)
      if (c == 78) {
        const next = mark(at + 4)
        if (!digitsAndBlanks(p + 1, next)) break
        at += 4
        p = next
        c = byte(p)
      }

      if (c == 71) {
        const code = p
        const head = load<u32>(p)
        kind = ((head >> 8) & 0xff) ^ 48
        let q = mark(at + 4)
        if (kind > 3) {
          // G92 E… and nothing else is the only other G that comes often.
          const next = mark(at + 8)
          if (((head >> 8) & 0xffff) != 0x3239 || byte(q) != 69 || q == p + 3 || !blank(p + 3, q)) break
          const value = number(q, next)
          c = byte(next)
          if (value != value || (c != LF && c != CR)) break
          lines++
          set(line, <f64>lines)
          set(extruding, <f64>extruded)
          if (plain) {
            set(net, sum)
            set(peak, most)
          }
          onOrigin(value)
          e = get(logicalE)
          row = get(due)
          up = get(top)
          down = get(floor)
          outside = true
          at += 8
          p = next
        } else {
          if (!blank(p + 2, q)) break
          p = q
          for (;;) {
            c = byte(p)
            at += 4
            if (c < 65) break
            q = mark(at + 4)
            const bit: u32 = 1 << (c - 65)
            if (c > 90 || (plainWords & bit) == 0 || (seen & bit) != 0) break
            seen |= bit
            if (c == 88 || c == 89) {
              if (!isAxisWord(p, q)) break
              if (c == 88) toX = p
              else toY = p
              if (placing) {
                if (c == 88) valueX = axisValue(p, q)
                else valueY = axisValue(p, q)
              }
            } else {
              const value = number(p, q)
              if (value != value || (c == 69 && (byte(p - 1) ^ 48) < 10)) break
              if (c == 90) {
                toZ = value
                outside = true
              }
              if (c == 69) word = value
              else set(<i32>c - 65, value)
            }
            p = q
          }
          q = p
          while (c == 59 || c == 42) {
            // To the end of the remark.
            do {
              at += 4
              p = mark(at)
              c = byte(p)
            } while (c != LF && c != CR && c != 0)
          }
          if (c != LF && c != CR) break
          isMove = true
          if (q - code > shortLine) {
            set(line, <f64>lines)
            onLongLine(<i32>start)
          }
        }
      } else if (c == 59) {
        do {
          at += 4
          p = mark(at)
          c = byte(p)
        } while (c != LF && c != CR && c != 0)
        if (c == 0) break
        lines++
      } else if (c == 77) {
        p = mark(at + 4)
        const code = codeAt(mark(at) + 1, p)
        if (code < 0 || (code < 1000 && (byte(counted + code) & counting) != 0)) break
        at += 4
        c = byte(p)
        while (c != LF && c != CR && c != 0) {
          at += 4
          p = mark(at)
          c = byte(p)
        }
        if (c == 0) break
        set(commands, 1)
        lines++
      } else if (c == LF || c == CR) lines++
      else break
    }

    if (isMove) {
      lines++
      moved++
      const arc = kind > 1
      if (arc) set(arcs, get(arcs) + 1)
      if (!plain) {
        if (toX) set(hotX, axisNumber(toX))
        if (toY) set(hotY, axisNumber(toY))
        set(hotZ, toZ)
        set(hotE, word)
        set(line, <f64>lines)
        set(extruding, <f64>extruded)
        set(retractions, <f64>back)
        onMove(seen, arc ? kind : 0, <i32>start)
        extruded = <i64>get(extruding)
        back = <i64>get(retractions)
      } else {
        let fed: f64 = 0
        let timed = false
        if (seen & bitE) {
          const target = word * scale
          const feed = (relative ? target : target - e) * factor
          e = relative ? e + target : target
          fed = feed
          if (feed > 0) {
            if (feed > longFeed) {
              set(line, <f64>lines)
              onLongFeed(<i32>start)
            }
            if (toX | toY || arc) {
              extruded++
              if (arc) set(extrudingArcs, get(extrudingArcs) + 1)
              if (--untilSample == 0 || outside) {
                const leaves = toZ > z || toZ > up || toZ < down
                if (wordX) x = axisNumber(wordX)
                if (wordY) y = axisNumber(wordY)
                wordX = 0
                wordY = 0
                const dx = toX ? axisNumber(toX) - x : 0
                const dy = toY ? axisNumber(toY) - y : 0
                if (leaves && (dx != 0 || dy != 0 || arc)) {
                  set(net, sum)
                  set(peak, most)
                  set(atZ, z)
                  set(line, <f64>lines)
                  onLayer(toZ, <i32>start)
                  up = get(top)
                  down = get(floor)
                }
                outside = toZ > up || toZ < down
                if (untilSample == 0) {
                  const stands = extruded < alwaysSampled ? 1 : sampledOf
                  untilSample = stands
                  if (!arc && (dx != 0 || dy != 0)) onBead(feed, dx, dy, toZ - z, stands)
                }
              }
              if (drawing) {
                const nextX = toX ? valueX : x
                const nextY = toY ? valueY : y
                const still = nextX == x && nextY == y
                if (arc || (!still && !markMove(x, nextX, y, nextY, z, toZ))) {
                  set(atX, x)
                  set(atY, y)
                  set(atZ, z)
                  set(hotX, nextX)
                  set(hotY, nextY)
                  set(hotZ, toZ)
                  onDraws(seen, arc ? kind : 0)
                }
              }
            }
          } else if (feed < 0) back++
          sum += feed
          if (sum > most) {
            most = sum
            if (sum >= row) {
              set(peak, most)
              if (timing) {
                // The row is told the time at which this move ends.
                timeMove(seen, kind, x, toX ? valueX : x, y, toY ? valueY : y, z, toZ, fed)
                timed = true
              }
              set(line, <f64>lines)
              onRow(toZ, <i32>start)
              row = get(due)
            }
          }
        }
        if (timing && !timed) {
          timeMove(seen, kind, x, toX ? valueX : x, y, toY ? valueY : y, z, toZ, fed)
        }
        if (placing) {
          if (toX) x = valueX
          if (toY) y = valueY
        } else {
          if (toX) wordX = toX
          if (toY) wordY = toY
        }
        z = toZ
      }
    }

    // At the line's end: LF, CR LF, or CR.
    start = p + 1
    at += 4
    if (c == CR && start < end) {
      if (byte(start) == LF) {
        start++
        at += 4
      } else {
        set(line, <f64>lines)
        onLoneCR(<i32>start)
      }
    }
  }

  if (plain) {
    set(atX, wordX ? axisNumber(wordX) : x)
    set(atY, wordY ? axisNumber(wordY) : y)
    set(atZ, z)
    set(logicalE, e)
    set(net, sum)
    set(peak, most)
  }
  set(line, <f64>lines)
  set(extruding, <f64>extruded)
  set(moves, <f64>moved)
  set(retractions, <f64>back)
  cursor = at
  return start
}
