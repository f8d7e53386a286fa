import {
  type FactJson,
  idLength,
  type LedgerRecord,
  makeId,
  type OpenedJson,
  type PrintRowJson,
  type ScaleRowJson,
  type WeighedJson,
} from '../../src/contract/index.ts'
import { SeededRandom } from '../seeded-random.ts'

// A small harbour bench: who and what is there before anything is written down.

const seeded = new SeededRandom(20_260_301)
const random = (): number => seeded.uniform()
const randomByte = (): number => Math.floor(random() * 256)
export const newRowId = (): string => makeId(idLength.row, randomByte)
export const newFactId = (): string => makeId(idLength.fact, randomByte)

/** A moment, counted in minutes from a morning in March. */
export const minute = (count: number): string =>
  new Date(Date.UTC(2026, 2, 1, 8) + count * 60_000).toISOString()

export const make = newRowId()
export const otherMake = newRowId()
export const printer = newRowId()
export const scale = newRowId()
export const person = newRowId()
export const reel = newRowId()
export const otherReel = newRowId()
export const printHash = 'a1'.repeat(32)

export const scaleRow: ScaleRowJson = {
  kind: 'scale',
  id: scale,
  changed_at: minute(0),
  name: 'letter scale by the window',
  step_g: 1,
  repeatability_g: 0.5,
  gain: 0.001,
}

export const catalogue: readonly LedgerRecord[] = [
  { kind: 'make', id: make, changed_at: minute(0), maker: 'Tidewater', name: 'Plain grey' },
  { kind: 'make', id: otherMake, changed_at: minute(0), maker: 'Tidewater', name: 'Buoy red' },
  { kind: 'printer', id: printer, changed_at: minute(0), name: 'Heron' },
  scaleRow,
  { kind: 'person', id: person, changed_at: minute(0), name: 'Ada of the slipway' },
]

/** Figures that are no round ones: every bit of them has to come back. */
const column = (count: number, from: number): number[] =>
  Array.from({ length: count }, (_, place) => from + place * Math.PI * random())

export const printRow = (id: string = printHash, at = minute(1), points = 400): PrintRowJson => ({
  kind: 'print',
  id,
  changed_at: at,
  file: 'mooring cleat.gcode',
  bytes: 1_234_567,
  families: [
    {
      families: ['one', 'two'],
      tools: [
        {
          tool: 0,
          peak_mm: 12_345.678_901_234_5,
          net_mm: -0.1,
          start_macro_mm: 5e-324,
          layer_end_mm: column(points / 4, 1),
          curve: {
            draw_mm: column(points, 0),
            height_mm: column(points, 0.2),
            layer: Array.from({ length: points }, (_, place) => place),
            byte: Array.from({ length: points }, (_, place) => place * 1000),
          },
        },
      ],
    },
  ],
  layers: {
    count: 3,
    passes: 1,
    spiral: false,
    step_mm: 0.2,
    height_mm: [0.2, 0.4, 0.1 + 0.2],
    end_byte: [1, 2, 3],
    end_line: [1, 2, 3],
  },
})

export const opening = (of: string = reel, made: string = make): OpenedJson => ({
  kind: 'opened',
  id: newFactId(),
  at: minute(2),
  recorded_at: minute(2),
  reel: of,
  make: made,
})

export const weighing = (grams: number, id = newFactId(), of = reel): WeighedJson => ({
  kind: 'weighed',
  id,
  at: minute(3),
  recorded_at: minute(4),
  reel: of,
  weighing: { scale, reading_g: grams },
})

/** A fact of every kind, and every reference there is. */
export const factOfEveryKind = (): FactJson[] => {
  const common = { at: minute(5), recorded_at: minute(6), by: person }
  const weighed = weighing(800)
  const again = weighing(810)
  return [
    {
      ...opening(),
      by: person,
      gross_when_new: { scale, reading_g: 1234 },
      price: { amount: '21.90', currency: 'EUR' },
      colour: { name: 'grå', srgb: '#808080' },
    },
    weighed,
    again,
    {
      kind: 'carrier-weighed',
      id: newFactId(),
      ...common,
      make,
      reel,
      weighing: { scale, reading_g: 231 },
    },
    {
      kind: 'drew',
      id: newFactId(),
      ...common,
      reel,
      printer,
      length_mm: 1234.5,
      print: printHash,
      stopped_at: { share: 0.3 },
    },
    { kind: 'trimmed', id: newFactId(), ...common, reel, mass_g: { value: 1.5, u: 0.1 } },
    { kind: 'emptied', id: newFactId(), ...common, reel },
    { kind: 'ran-dry', id: newFactId(), ...common, reel, tail_mm: { value: 400, u: 50 } },
    {
      kind: 'measured',
      id: newFactId(),
      ...common,
      reel,
      cut: { length_mm: { value: 1000, u: 1 }, weighing: { scale, reading_g: 2.98 } },
    },
    { kind: 'data-sheet', id: newFactId(), ...common, make, source: 'sheet of 2025' },
    { kind: 'dried', id: newFactId(), ...common, reel, hours: 6 },
    { kind: 'moved', id: newFactId(), ...common, reel, place: 'shelf 2', air: 'dry' },
    { kind: 'retired', id: newFactId(), ...common, reel, reason: 'given away' },
    {
      kind: 'put-right',
      id: newFactId(),
      ...common,
      voids: weighed.id,
      reason: 'the cat',
      instead: again.id,
    },
  ]
}

/** Everything a fact may refer to. */
export const known: readonly LedgerRecord[] = [...catalogue, printRow()]
