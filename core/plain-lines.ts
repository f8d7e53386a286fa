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
 * Three stages. `index` maps every byte that is neither part of a number nor a blank, sixty-four at a
 * time, to one bit: letters, line ends, remark signs. The shape of a line is then one load of the map
 * shifted to where the line begins, and its words begin where bits are set. The tight loop takes the
 * lines that are `G1 X… Y… E…` and feed, for as long as nothing else can be due; all others, and
 * those on which a layer, a row of the curve or a bead may be due, go through the second loop, word
 * by word. Lengths of filament are whole picometres (`src/print/picometres.ts`), so adding is exact.
 * E and Z become values sixteen characters at once; X and Y are only remembered where they stand,
 * and made a value when a bead is sampled or the height changes; unless the silhouette or the time is
 * asked for, which needs them all: then both at once, eight characters each. Of the silhouette only the row at hand is here, as bits: a move that leaves
 * the row, or its columns, is handed over to `silhouette-grid.ts`, which then sets another row.
 *
 * Memory, shared with `src/print/plain-lines.ts`, which holds the same addresses:
 *
 *     0       f64 × 64   `hot`: words of the line by letter (A = 0), then the slots below
 *     512     f64 × 16   powers of ten, and picometres in a digit behind so many decimals
 *     768     f64 × 17   the same two by the place of the point among sixteen characters; 16: none
 *     1040    u8 × 32    masks that keep the last so many of sixteen bytes
 *     1072    u8 × 272   shuffles that close the gap of the point
 *     1344    u8 × 1000  1 where an M code counts, 2 where it counts for time alone
 *     2352    u8 × 16    nine vectors that never change: `+`, 14, blank, `0`, point less `0`, 0x76, and
 *                        what makes two, four, eight digits one number
 *     2496    u32        how many moves stand below that were not yet taken, while timing
 *     2504    u32        how many rows of the curve stand below that were not yet taken
 *     2512    f64        draw from row to row of the curve, pm
 *     2560    u64        the map, for 64 KiB
 *     10880   f64 × 5    moves for the planner, 128 at most: ways along X, Y, Z, feed, speed
 *     16000   u8 × 144   shuffles that close the gap of the point in either half of sixteen bytes
 *     16384   u8         a window of lines copied here, at most 64 KiB
 *     90112   f64 × 3    rows of the curve, 128 at most: draw, height, byte
 *     98304   u8         room for slices of a file, whose windows are read where they lie
 *
 * The places behind a window are loaded (128 bytes at most) but decide nothing: its last byte ends a
 * line.
 *
 * Tried and slower, see docs/decisions/0005-the-reader-at-full-speed.md: byte by byte in TypeScript
 * and here; places of marks written down instead of bits; eight digits at a time with the point
 * found by arithmetic; all words turned into values at once; vectors and joined conditions in loops.
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
/** Byte of the machine code where the curve's next cell begins, and from which a bead is sampled. */
const curveAt = 58
const beadAt = 59
/** Byte of the machine code that lies at address 0. */
const origin = 60
/** Net feed at which the curve is looked at next, and how far the next look is behind it. */
const lookAt = 61
const spacing = 62
/** While a range is read: its spacing. */
const ownSpacing = 63

const powers: usize = 512
const picometres: usize = 640
const powersByPoint: usize = 768
const picometresByPoint: usize = 904
const keeps: usize = 1040
const shuffles: usize = 1072
const counted: usize = 1344
const constants: usize = 2352
const pending: usize = 2496
const pendingRows: usize = 2504
const rowStep: usize = 2512
const map: usize = 2560
const timedMoves: usize = 10880
const timedBudget: u32 = 128
const halfShuffles: usize = 16000
const curveRows: usize = 90112
const rowsBudget: u32 = 128
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
/** Larger numbers are left to the line reader. */
const numberBudget = 1e9
/** From here on picometres are not sure to be what the line reader makes of the number. */
const picometreBudget: f64 = 2251799813685248
const picometresPerMm: f64 = 1e9
const shortLine: usize = 95
/** A single feed that some boards refuse, pm. */
const longFeed: f64 = 200e9
/** `G0 X` in memory, and ` E`. */
const startOfMove: u32 = 0x58203047
const blankE: u16 = 0x4520
const crLf: u32 = 0x0a0d

// What the line reader does when something happens that is not every line's business.
@external('on', 'layer') declare function onLayer(height: f64, at: i32): void
@external('on', 'look') declare function onLook(height: f64, at: i32, cell: i32): void
@external('on', 'rows') declare function onRows(): void
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

@inline function get(slot: i32): f64 {
  return load<f64>(<usize>(slot << 3))
}

@inline function set(slot: i32, value: f64): void {
  store<f64>(<usize>(slot << 3), value)
}

@inline function add(slot: i32, value: f64): void {
  set(slot, get(slot) + value)
}

/** Where the map's bit of address 0 would be, in bytes. */
let mapAt: usize = map

/**
 * Maps a window of whole lines: one bit a byte, set where it is no blank and no part of a number.
 * 128 bytes behind `end` are looked at, but what they are does not matter.
 */
export function index(from: usize, end: usize): void {
  const first = from & ~63
  mapAt = map - (first >> 3)
  // Constants written here would be made anew, three instructions each, every time round.
  const plus = v128.load(constants)
  const nine = v128.load(constants, 16)
  const space = v128.load(constants, 32)
  let out = map
  for (let at = first; at < end; at += 64) {
    store<u64>(
      out,
      ~(
        plainBytes(v128.load(at), plus, nine, space) |
        (plainBytes(v128.load(at, 16), plus, nine, space) << 16) |
        (plainBytes(v128.load(at, 32), plus, nine, space) << 32) |
        (plainBytes(v128.load(at, 48), plus, nine, space) << 48)
      ),
    )
    out += 8
  }
  store<u64>(out, ~(<u64>0))
}

/** Bits of the bytes that are blank or from `+` to `9`: digits, signs, point, `,` and `/`. */
@inline function plainBytes(bytes: v128, plus: v128, nine: v128, space: v128): u64 {
  const numeric = i8x16.le_u(i8x16.sub(bytes, plus), nine)
  return <u64>(<u32>i8x16.bitmask(v128.or(numeric, i8x16.eq(bytes, space))))
}

/** The first mark behind a place. */
@inline function markAfter(place: usize): usize {
  const from = place + 1
  const marks = load<u64>(mapAt + (from >> 3)) >> <u64>(from & 7)
  return marks != 0 ? from + <usize>ctz(marks) : farMark(from)
}

function farMark(from: usize): usize {
  let at = (from >> 3) + 7
  let marks = load<u64>(mapAt + at)
  while (marks == 0) {
    at += 8
    marks = load<u64>(mapAt + at)
  }
  return (at << 3) + <usize>ctz(marks)
}

/** Where a remark that begins at `p` ends: at a line end, or at a NUL. */
function remarkEnd(p: usize): usize {
  let at = p
  let ends = endsIn(at)
  while (ends == 0) {
    at += 16
    ends = endsIn(at)
  }
  return at + <usize>ctz(ends)
}

@inline function endsIn(at: usize): u32 {
  const bytes = v128.load(at)
  const ends = v128.or(i8x16.eq(bytes, i8x16.splat(<i8>LF)), i8x16.eq(bytes, i8x16.splat(<i8>CR)))
  return <u32>i8x16.bitmask(v128.or(ends, i8x16.eq(bytes, i8x16.splat(0))))
}

// How the value of a number is told.
type Picometres = u64
type AsWritten = u32

/**
 * The number of the word at `p` whose next mark is at `next`; NaN when it is not a plain one.
 * `[-]` digits `[.digits]` of at most fifteen characters here, all at once; others in `longNumber`.
 */
function number<T>(p: usize, next: usize): f64 {
  const minus: usize = byte(p + 1) == 45 ? 1 : 0
  const q = byte(next - 1) == 32 ? next - 1 : next
  const size = q - p - 1 - minus
  if (size - 1 < 15) {
    const text = textBefore(q, size, v128.load(constants, 48))
    const point = pointOf(text, v128.load(constants, 64))
    const digits = i8x16.swizzle(text, v128.load(shuffles + (point << 4)))
    // A point alone is no number.
    if (areDigits(digits, v128.load(constants, 80)) && (size > 1 || point != 15)) {
      const value = valueOf<T>(
        mantissaOf(
          digits,
          v128.load(constants, 96),
          v128.load(constants, 112),
          v128.load(constants, 128),
        ),
        point,
      )
      if (value < budget<T>()) return minus ? -value : value
    }
  }
  return longNumber<T>(p + 1 + minus, q, minus)
}

/** The characters before `q` less `0`, so many of them, with zeros before. */
@inline function textBefore(q: usize, size: usize, zero: v128): v128 {
  return v128.and(i8x16.sub(v128.load(q - 16), zero), v128.load(keeps + size))
}

/** The place of the point among the sixteen characters; 16 where there is none. */
@inline function pointOf(text: v128, pointSign: v128): usize {
  return <usize>ctz(<u32>i8x16.bitmask(i8x16.eq(text, pointSign)) | 0x10000)
}

/** Whether none is above nine: from ten on, adding 0x76 sets the highest bit. */
@inline function areDigits(digits: v128, lift: v128): bool {
  return i8x16.bitmask(v128.or(digits, i8x16.add(digits, lift))) == 0
}

/** Sixteen digits as a number: two, four, eight at a time. */
@inline function mantissaOf(digits: v128, tens: v128, hundreds: v128, thousands: v128): i64 {
  const pairs = i16x8.shr_u(i16x8.mul(digits, tens), 8)
  const fours = i32x4.dot_i16x8_s(pairs, hundreds)
  const both = i64x2.extract_lane(
    i32x4.dot_i16x8_s(i16x8.narrow_i32x4_s(fours, fours), thousands),
    0,
  )
  return (both & 0xffffffff) * 100000000 + (both >> 32)
}

@inline function budget<T>(): f64 {
  return sizeof<T>() == sizeof<Picometres>() ? picometreBudget : numberBudget
}

/** `point`: how many characters from the sixteenth before the end to the point; 16 for none. */
@inline function valueOf<T>(digits: i64, point: usize): f64 {
  return sizeof<T>() == sizeof<Picometres>()
    ? <f64>digits * load<f64>(picometresByPoint + (point << 3))
    : <f64>digits / load<f64>(powersByPoint + (point << 3))
}

function longNumber<T>(from: usize, q: usize, minus: usize): f64 {
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
  if (sizeof<T>() == sizeof<Picometres>() && decimals > 9) return NaN
  while (at < q && byte(at) == 32) at++
  if (at != q) return NaN
  const value =
    sizeof<T>() == sizeof<Picometres>()
      ? <f64>mantissa * load<f64>(picometres + (decimals << 3))
      : <f64>mantissa / load<f64>(powers + (decimals << 3))
  if (value >= budget<T>()) return NaN
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
  return beginsNumber(p) && q - p < 17
}

@inline function beginsNumber(p: usize): bool {
  const two = <u32>load<u16>(p + 1)
  const first = (two & 0xff) == 45 ? two >> 8 : two & 0xff
  return (first ^ 48) < 10
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

@inline function pairOf(x: f64, y: f64): v128 {
  return f64x2.replace_lane(f64x2.splat(x), 1, y)
}

/** Eight bytes each from two places. */
@inline function halvesAt(low: usize, high: usize): v128 {
  return v128.load64_lane(high, v128.load64_zero(low), 1)
}

/** The number of an axis word whose next mark is at `q`. */
function axisValue(p: usize, q: usize): f64 {
  const value = number<AsWritten>(p, q)
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
  const startX = columnOf(viewX, x)
  const stopX = columnOf(viewX, toX)
  const startY = columnOf(viewY, y)
  const stopY = columnOf(viewY, toY)
  const countX = <u32>get(viewX + 2)
  const countY = <u32>get(viewY + 2)
  if (startX >= countX || stopX >= countX || startY >= countY || stopY >= countY) return false
  markColumns(viewX, startX, stopX)
  markColumns(viewY, startY, stopY)
  return true
}

/** The column of a side view that a place is in; no less than their number where it is in none. */
@inline function columnOf(view: i32, place: f64): u32 {
  return <u32>(<i32>(Math.floor(place * get(view)) - get(view + 1)))
}

/** The same of both side views at once. */
@inline function columnsOf(place: v128, perMm: v128, first: v128): v128 {
  return i32x4.trunc_sat_f64x2_s_zero(
    f64x2.sub(f64x2.floor(f64x2.mul(place, perMm)), first),
  )
}

/** Whether each of two places is in a column. */
@inline function areColumns(columns: v128, count: v128): bool {
  return !v128.any_true(i32x4.ge_u(columns, count))
}

@inline function markColumns(view: i32, from: u32, to: u32): void {
  const a = from < to ? from : to
  const b = from < to ? to : from
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
}

/** Writes a move down for the planner. @param way - along X and Y @param feed - pm */
@inline function timeStraight(way: v128, dz: f64, feed: f64): void {
  const count = load<u32>(pending)
  const at = timedMoves + <usize>(count * 40)
  v128.store(at, way)
  store<f64>(at, dz, 16)
  store<f64>(at, feed / picometresPerMm, 24)
  store<f64>(at, get(wordF), 32)
  store<u32>(pending, count + 1)
  if (count + 1 == timedBudget) onTimed()
}

/** Has a move timed that goes on from where the nozzle stands; an arc is handed over. */
function timeMove(seen: u32, kind: u32, toX: f64, toY: f64, toZ: f64, feed: f64): void {
  if (kind < 2) {
    timeStraight(pairOf(toX - get(atX), toY - get(atY)), toZ - get(atZ), feed)
    return
  }
  set(hotX, toX)
  set(hotY, toY)
  set(hotZ, toZ)
  onTimedArc(seen, kind, feed / picometresPerMm)
}

/** A length on the grid, units; halves go up, as `toPicometres` in the line reader rounds. */
@inline function whole(units: f64): f64 {
  return Math.floor(units + 0.5)
}

/** The largest power of two up to a place over 2^shift, at least 1: as in look-spacing.ts. */
function powerUpTo(place: f64, shift: i64): i64 {
  const share = <i64>place >> shift
  return share == 0 ? 1 : <i64>1 << (63 - clz(share))
}

@inline function nextMultiple(place: f64, spacing: i64): f64 {
  return <f64>((<i64>place | (spacing - 1)) + 1)
}

/** The address of a byte of the machine code; never beyond `end`. */
function addressOf(place: f64): usize {
  const address = place - get(origin)
  return address < 0 ? 0 : address > <f64>end ? end : <usize>address
}

// What holds while `run` runs.
let end: usize
let plain: bool
let drawing: bool
let timing: bool
/** X and Y are made values at once. */
let placing: bool
let relative: bool
let scale: f64
let factor: f64
/** Whether E words are feeds as they stand. */
let exact: bool
/** X and Y are where their last word stands, or, while that is 0, at the value kept. */
let wordX: usize
let wordY: usize
/** Whether the nozzle stands outside the band of heights: the next extruding move is looked at. */
let outside: bool
/** Addresses from which the curve's next cell begins, and a bead is sampled. */
let curveDue: usize
let beadDue: usize

/**
 * Reads lines from `from`, where a line of the window mapped last begins, and returns where the
 * first odd line begins, or `to`.
 *
 * @param isPlain - 0: every move is handed over as it stands (relative axes, inches, families apart)
 * @param isDrawing - not 0: the silhouette is asked for
 * @param isTiming - not 0: the time is asked for
 */
export function run(
  from: usize,
  to: usize,
  isPlain: i32,
  isDrawing: i32,
  isTiming: i32,
  isRelative: i32,
  eScale: f64,
  eFactor: f64,
): usize {
  end = to
  plain = isPlain != 0
  drawing = isDrawing != 0
  timing = isTiming != 0
  placing = drawing || timing
  relative = isRelative != 0
  scale = eScale
  factor = eFactor
  exact = scale == 1 && factor == 1
  wordX = 0
  wordY = 0
  outside = true
  curveDue = addressOf(get(curveAt))
  beadDue = addressOf(get(beadAt))
  let start = from
  while (start < to) {
    if (plain && !outside) {
      if (timing) start = drawing ? readFeeds<DrawingTiming>(start) : readFeeds<Timing>(start)
      else start = drawing ? readFeeds<Drawing>(start) : readFeeds<Neither>(start)
      if (start == to) break
    }
    const next = readLine(start)
    if (next == 0) break
    start = next
  }
  if (plain) settleXY()
  return start
}

// The tight loop is compiled for each, so that a reading without silhouette or time pays nothing for
// it: eight bytes where it draws, a float where it times.
type Drawing = u64
type Neither = u32
type DrawingTiming = f64
type Timing = f32

/**
 * Reads the lines that nearly all are, `G1 X… Y… E…`, or G0, that feed, while nothing else is due, and
 * returns where another begins.
 */
function readFeeds<T>(from: usize): usize {
  const isDrawing = sizeof<T>() == sizeof<Drawing>()
  const isTiming = isFloat<T>()
  const to = curveDue < beadDue ? curveDue : beadDue
  const look = get(lookAt)
  // What is global or constant is loaded anew each time round, unless it is named here.
  const marksAt = mapAt
  const deltas = relative
  const isExact = exact
  const zero = v128.load(constants, 48)
  const pointSign = v128.load(constants, 64)
  const lift = v128.load(constants, 80)
  const tens = v128.load(constants, 96)
  const hundreds = v128.load(constants, 112)
  const thousands = v128.load(constants, 128)
  const z = get(atZ)
  let start = from
  let last: usize = 0
  let count: i32 = 0
  // X and Y, and all that is made of them, side by side.
  let place = pairOf(get(atX), get(atY))
  // The silhouette's row and columns stay what they are as long as nothing leaves them.
  const inRow = isDrawing && z > get(rowFrom) && z <= get(rowTo)
  const perMm = pairOf(get(viewX), get(viewY))
  const firstColumn = pairOf(get(viewX + 1), get(viewY + 1))
  // Behind the two there is none: any is below.
  const columnCount = i32x4(<i32>get(viewX + 2), <i32>get(viewY + 2), 1, 1)
  let columns = columnsOf(place, perMm, firstColumn)
  let e = get(logicalE)
  let sum = get(net)
  while (start < to) {
    // One condition to a line: joined ones are worked out before they are branched on.
    if ((load<u32>(start) & ~(<u32>0x100)) != startOfMove) break
    let marks = load<u64>(marksAt + (start >> 3)) >> <u64>(start & 7)
    marks &= ~(<u64>15)
    const toY = start + <usize>ctz(marks)
    marks &= marks - 1
    const eWord = start + <usize>ctz(marks)
    marks &= marks - 1
    const lineEnd = start + <usize>ctz(marks)
    if (byte(toY) != 89) break
    if (load<u16>(eWord - 1) != blankE) break
    if (((toY - start - 3) | (eWord - toY)) > 15) break
    const firstX = byte(start + 4)
    if ((firstX ^ 48) > 9) {
      if (firstX != 45) break
      if ((byte(start + 5) ^ 48) > 9) break
    }
    const firstY = byte(toY + 1)
    if ((firstY ^ 48) > 9) {
      if (firstY != 45) break
      if ((byte(toY + 2) ^ 48) > 9) break
    }
    let next = lineEnd + 1
    const ending = byte(lineEnd)
    if (ending != LF) {
      if (ending != CR) break
      // An LF behind the window is another's.
      if (next == end) break
      if (byte(next) != LF) break
      next++
    }
    const minus: usize = byte(eWord + 1) == 45 ? 1 : 0
    const size = lineEnd - eWord - 1 - minus
    if (size - 1 > 14) break
    const text = textBefore(lineEnd, size, zero)
    const point = pointOf(text, pointSign)
    const digits = i8x16.swizzle(text, v128.load(shuffles + (point << 4)))
    if (!areDigits(digits, lift)) break
    const mantissa = mantissaOf(digits, tens, hundreds, thousands)
    // A point alone, which is no number, reads as zero, too.
    if (mantissa == 0) break
    const sign = -(<i64>minus)
    const value = valueOf<Picometres>((mantissa ^ sign) - sign, point)
    let target = value
    if (!isExact) target = whole(value * scale)
    let feed = target
    if (!deltas) feed = target - e
    if (!isExact) feed = whole(feed * factor)
    if (!(feed > 0)) break
    if (!(feed <= longFeed)) break
    if (!(value < picometreBudget)) break
    const after = sum + feed
    if (after >= look) break
    if (isDrawing || isTiming) {
      const minusX: usize = firstX == 45 ? 1 : 0
      const minusY: usize = firstY == 45 ? 1 : 0
      const endX = toY - (byte(toY - 1) == 32 ? 1 : 0)
      const endY = eWord - 1
      const sizeX = endX - start - 4 - minusX
      const sizeY = endY - toY - 1 - minusY
      // Where either is longer, these are no digits.
      let halves = lift
      let divisors = zero
      if (((sizeX - 1) | (sizeY - 1)) < 8) {
        const both = v128.and(
          i8x16.sub(halvesAt(endX - 8, endY - 8), zero),
          halvesAt(keeps + 8 + sizeX, keeps + 8 + sizeY),
        )
        const points = <u32>i8x16.bitmask(i8x16.eq(both, pointSign))
        const pointX = <usize>ctz(points | 0x100)
        const pointY = <usize>ctz((points >> 8) | 0x100)
        halves = i8x16.swizzle(
          both,
          halvesAt(halfShuffles + (pointX << 3), halfShuffles + 72 + (pointY << 3)),
        )
        divisors = halvesAt(powersByPoint + 64 + (pointX << 3), powersByPoint + 64 + (pointY << 3))
      }
      let next: v128
      if (areDigits(halves, lift)) {
        const fours = i32x4.dot_i16x8_s(i16x8.shr_u(i16x8.mul(halves, tens), 8), hundreds)
        const eights = i32x4.dot_i16x8_s(i16x8.narrow_i32x4_s(fours, fours), thousands)
        const signs = i64x2.splat(-(<i64>minusX) & 0xffffffff | -(<i64>minusY) << 32)
        next = f64x2.div(
          f64x2.convert_low_i32x4_s(i32x4.sub(v128.xor(eights, signs), signs)),
          divisors,
        )
      } else next = pairOf(axisValue(start + 3, toY), axisValue(toY, eWord))
      if (isDrawing) {
        if (v128.any_true(f64x2.ne(next, place))) {
          const toColumns = columnsOf(next, perMm, firstColumn)
          if (!inRow) break
          if (!areColumns(columns, columnCount)) break
          if (!areColumns(toColumns, columnCount)) break
          markColumns(viewX, i32x4.extract_lane(columns, 0), i32x4.extract_lane(toColumns, 0))
          markColumns(viewY, i32x4.extract_lane(columns, 1), i32x4.extract_lane(toColumns, 1))
          columns = toColumns
        }
      }
      if (isTiming) timeStraight(f64x2.sub(next, place), 0, feed)
      place = next
    }
    e = deltas ? e + target : target
    sum = after
    count++
    last = start
    start = next
  }
  if (count == 0) return start
  set(logicalE, e)
  set(net, sum)
  // It has only grown.
  if (sum > get(peak)) set(peak, sum)
  add(line, <f64>count)
  add(moves, <f64>count)
  add(extruding, <f64>count)
  if (isDrawing || isTiming) {
    set(atX, f64x2.extract_lane(place, 0))
    set(atY, f64x2.extract_lane(place, 1))
  } else {
    wordX = last + 3
    wordY = markAfter(wordX)
  }
  return start
}

/** Makes X and Y values. */
function settleXY(): void {
  if (wordX) set(atX, axisNumber(wordX))
  if (wordY) set(atY, axisNumber(wordY))
  wordX = 0
  wordY = 0
}

/** Reads any line, and returns where the next begins; 0 when it is odd. */
function readLine(start: usize): usize {
  let p = start
  let c = byte(p)
  if (c == 32) {
    p = markAfter(p)
    if (!blank(start, p)) return 0
    c = byte(p)
  }
  if (c == 78) {
    const next = markAfter(p)
    if (!digitsAndBlanks(p + 1, next)) return 0
    p = next
    c = byte(p)
  }
  if (c == 71) {
    p = ((load<u8>(p + 1) ^ 48) > 3) ? readOrigin(p) : readMove(start, p)
  } else if (c == 59) {
    p = remarkEnd(p)
    if (byte(p) == 0) return 0
    add(line, 1)
  } else if (c == 77) {
    const code = codeAt(p + 1, markAfter(p))
    if (code < 0 || (code < 1000 && (byte(counted + code) & (timing ? 3 : 1)) != 0)) return 0
    p = remarkEnd(p)
    if (byte(p) == 0) return 0
    set(commands, 1)
    add(line, 1)
  } else if (c == LF || c == CR) add(line, 1)
  else return 0
  return p == 0 ? 0 : lineAfter(p)
}

/** Where the line begins that follows the line end at `p`: LF, CR LF, or CR. */
@inline function lineAfter(p: usize): usize {
  const next = p + 1
  if (byte(p) == LF || next == end) return next
  if (byte(next) == LF) return next + 1
  onLoneCR(<i32>next)
  return next
}

/** `G92 E…` and nothing else is the only other G that comes often. Returns the line's end. */
function readOrigin(p: usize): usize {
  const word = markAfter(p)
  if (load<u16>(p + 1) != 0x3239 || byte(word) != 69 || word == p + 3 || !blank(p + 3, word)) return 0
  const ends = markAfter(word)
  const value = number<AsWritten>(word, ends)
  const c = byte(ends)
  if (value != value || (c != LF && c != CR)) return 0
  add(line, 1)
  onOrigin(value)
  outside = true
  return ends
}

/** A move whose G is at `g`; returns the line's end. */
function readMove(start: usize, g: usize): usize {
  let p = markAfter(g)
  if (!blank(g + 2, p)) return 0
  const kind = byte(g + 1) ^ 48
  let seen: u32 = 0
  let toX: usize = 0
  let toY: usize = 0
  let z = get(atZ)
  let toZ = z
  /** Values of the words at `toX` and `toY`, while placing. */
  let valueX: f64 = 0
  let valueY: f64 = 0
  let word: f64 = 0
  let c = byte(p)
  while (c >= 65) {
    const q = markAfter(p)
    const bit: u32 = 1 << (c - 65)
    if (c > 90 || (plainWords & bit) == 0 || (seen & bit) != 0) return 0
    seen |= bit
    if (c == 88 || c == 89) {
      if (!isAxisWord(p, q)) return 0
      if (c == 88) {
        toX = p
        if (placing) valueX = axisValue(p, q)
      } else {
        toY = p
        if (placing) valueY = axisValue(p, q)
      }
    } else if (c == 69) {
      word = number<Picometres>(p, q)
      if (word != word || (byte(p - 1) ^ 48) < 10) return 0
    } else {
      const value = number<AsWritten>(p, q)
      if (value != value) return 0
      if (c == 90) toZ = value
      else set(<i32>c - 65, value)
    }
    p = q
    c = byte(p)
  }
  const words = p
  if (c == 59 || c == 42) {
    p = remarkEnd(p)
    c = byte(p)
  }
  if (c != LF && c != CR) return 0
  if (words - g > shortLine) onLongLine(<i32>start)
  const arc = kind > 1
  add(line, 1)
  add(moves, 1)
  if (arc) add(arcs, 1)
  if (!plain) {
    if (toX) set(hotX, axisNumber(toX))
    if (toY) set(hotY, axisNumber(toY))
    set(hotZ, toZ)
    set(hotE, word / picometresPerMm)
    onMove(seen, arc ? kind : 0, <i32>start)
    return p
  }
  if (seen & bitZ) outside = true
  let feed: f64 = 0
  if (seen & bitE) {
    const e = get(logicalE)
    const target = exact ? word : whole(word * scale)
    feed = relative ? target : target - e
    if (!exact) feed = whole(feed * factor)
    set(logicalE, relative ? e + target : target)
    if (feed > longFeed) onLongFeed(<i32>start)
    if (feed < 0) add(retractions, 1)
    else if (feed > 0 && (toX | toY || arc)) {
      add(extruding, 1)
      if (arc) add(extrudingArcs, 1)
      if (start >= beadDue || outside) lookAtMove(start, feed, toX, toY, toZ, arc)
      if (drawing) {
        const x = get(atX)
        const y = get(atY)
        const nextX = toX ? valueX : x
        const nextY = toY ? valueY : y
        if (arc || ((nextX != x || nextY != y) && !markMove(x, nextX, y, nextY, z, toZ))) {
          set(hotX, nextX)
          set(hotY, nextY)
          set(hotZ, toZ)
          onDraws(seen, arc ? kind : 0)
        }
      }
    }
    const sum = get(net) + feed
    set(net, sum)
    if (sum > get(peak)) set(peak, sum)
  }
  if (timing) timeMove(seen, kind, toX ? valueX : get(atX), toY ? valueY : get(atY), toZ, feed)
  if (seen & bitE && (start >= curveDue || get(net) >= get(lookAt))) lookAtCurve(start, toZ)
  if (placing) {
    if (toX) set(atX, valueX)
    if (toY) set(atY, valueY)
  } else {
    if (toX) wordX = toX
    if (toY) wordY = toY
  }
  set(atZ, toZ)
  return p
}

/** Whether an extruding move opens a layer, and whether its bead is to be sampled. */
function lookAtMove(start: usize, feed: f64, toX: usize, toY: usize, toZ: f64, arc: bool): void {
  settleXY()
  const z = get(atZ)
  const dx = toX ? axisNumber(toX) - get(atX) : 0
  const dy = toY ? axisNumber(toY) - get(atY) : 0
  const travels = dx != 0 || dy != 0
  const leaves = toZ > z || toZ > get(top) || toZ < get(floor)
  if (leaves && (travels || arc)) onLayer(toZ, <i32>start)
  outside = toZ > get(top) || toZ < get(floor)
  if (start < beadDue) return
  const place = get(origin) + <f64>start
  const spacing = powerUpTo(place, 9)
  set(beadAt, nextMultiple(place, spacing))
  beadDue = addressOf(get(beadAt))
  const stands = spacing < 32 ? 1 : <i32>(spacing >> 5)
  if (!arc && travels) onBead(feed / picometresPerMm, dx, dy, toZ - z, stands)
}

/** Says where the curve is looked at next, and keeps a row where one is due. */
function lookAtCurve(start: usize, toZ: f64): void {
  const place = get(origin) + <f64>start
  const isCell = start >= curveDue
  const own = get(ownSpacing)
  if (isCell) {
    set(curveAt, nextMultiple(place, powerUpTo(place, 9)))
    curveDue = addressOf(get(curveAt))
    const apart = own > 0 ? own : <f64>powerUpTo(get(peak), 11)
    set(spacing, apart)
    set(lookAt, get(net) + apart)
  } else {
    const apart = get(spacing)
    const passed = Math.floor((get(net) - get(lookAt)) / apart)
    set(lookAt, get(lookAt) + (passed + 1) * apart)
  }
  if (own > 0) onLook(toZ, <i32>start, isCell ? 1 : 0)
  else if (get(peak) >= get(due)) {
    // The first row of a tool may be refused.
    if (timing || get(due) == 0) onLook(toZ, <i32>start, isCell ? 1 : 0)
    else keepRow(toZ, place)
  }
}

/** Writes a row of the curve down; the next is due where the draw reaches the next whole step. */
@inline function keepRow(height: f64, place: f64): void {
  const step = load<f64>(rowStep)
  const draw = get(peak)
  const count = load<u32>(pendingRows)
  const at = curveRows + <usize>(count * 24)
  store<f64>(at, draw)
  store<f64>(at, height, 8)
  store<f64>(at, place, 16)
  store<u32>(pendingRows, count + 1)
  set(due, (Math.floor(draw / step) + 1) * step)
  if (count + 1 == rowsBudget) onRows()
}
