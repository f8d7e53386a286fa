import type { BenchPrinter } from '../bench.ts'
import { bench } from '../bench.ts'
import type { DemoPrint } from '../demo-print.ts'
import { batteryDoor } from '../prints/battery-door.ts'
import { gasketSet } from '../prints/gasket-set.ts'
import { hingePin } from '../prints/hinge-pin.ts'
import { knob } from '../prints/knob.ts'
import { tackleBox } from '../prints/tackle-box.ts'
import { vase } from '../prints/vase.ts'
import type { BenchReel } from '../reel.ts'
import { reels } from '../reels.ts'

/** Makes of the bench, as its catalogue has them. */
export const makes = {
  tessamund: {
    maker: 'Tessamund',
    name: 'PLA',
    material: 'pla',
    label_net_g: 1000,
    carrier: 'plastic',
  },
  tessamundRefill: {
    maker: 'Tessamund',
    name: 'PLA refill',
    material: 'pla',
    label_net_g: 750,
  },
  ostrelle: {
    maker: 'Ostrelle',
    name: 'PLA',
    material: 'pla',
    label_net_g: 1000,
    carrier: 'cardboard',
  },
  brannoc: {
    maker: 'Brannoc',
    name: 'PETG',
    material: 'petg',
    label_net_g: 1000,
    carrier: 'plastic',
  },
  unknown: { maker: 'unknown', name: 'PETG', material: 'petg' },
  hallvaneTpu: {
    maker: 'Hallvane',
    name: 'TPU',
    material: 'tpu',
    label_net_g: 750,
    carrier: 'plastic',
  },
  hallvaneWood: {
    maker: 'Hallvane',
    name: 'wood PLA',
    material: 'pla-wood',
    label_net_g: 500,
    carrier: 'plastic',
  },
} as const

export type MakeName = keyof typeof makes

/** The third printer came late to the loft; it is small and feeds too little. */
export const skiff: BenchPrinter = {
  name: 'Oddering 1',
  nickname: 'the Skiff',
  tools: 1,
  hidden: { feedFactor: 0.989, startAllowance_mm: 25, tail_mm: 410 },
}

const { gull, pair } = bench.printers

/** How often a print was made, and on which printer. */
export type Printed = readonly [times: number, print: DemoPrint, printer: BenchPrinter]

/** The life of a reel on the shelf; moments are spread evenly between its first and last week. */
export interface ReelStory {
  readonly reel: BenchReel
  readonly make: MakeName
  readonly srgb: string
  readonly place: string
  /** Weeks since the ledger was begun. */
  readonly from: number
  readonly to: number
  readonly partUsed?: boolean
  readonly price?: string
  readonly prints: readonly Printed[]
  /** Fed at the end of its prints, with no file kept, mm. */
  readonly jigs_mm?: number
  /** Weighed after so many prints each, and at the end. */
  readonly weighedEvery?: number
}

/** The reels of `reels.ts`: what the ledger tells leads to what they hold there. */
export const stories: readonly ReelStory[] = [
  {
    reel: reels.white,
    make: 'tessamund',
    srgb: '#f2f1ea',
    place: 'long shelf',
    from: 2,
    to: 38,
    price: '21.90',
    prints: [
      [3, knob, gull],
      [1, tackleBox, gull],
      [3, knob, skiff],
      [1, tackleBox, gull],
    ],
    weighedEvery: 3,
  },
  {
    reel: reels.black,
    make: 'tessamundRefill',
    srgb: '#202124',
    place: 'on the Gull',
    from: 4,
    to: 39,
    price: '14.50',
    prints: [
      [2, tackleBox, gull],
      [3, knob, gull],
      [1, tackleBox, gull],
      [2, vase, gull],
    ],
    weighedEvery: 4,
  },
  {
    reel: reels.yellow,
    make: 'tessamund',
    srgb: '#e2b51f',
    place: 'long shelf',
    from: 36,
    to: 36,
    price: '22.40',
    prints: [],
  },
  {
    reel: reels.grey,
    make: 'tessamund',
    srgb: '#9aa0a3',
    place: 'window box',
    from: 30,
    to: 40,
    partUsed: true,
    prints: [],
  },
  {
    reel: reels.red,
    make: 'ostrelle',
    srgb: '#b3261e',
    place: 'window box',
    from: 1,
    to: 37,
    price: '18.00',
    prints: [
      [3, tackleBox, pair],
      [4, vase, pair],
      [2, tackleBox, skiff],
      [1, knob, skiff],
    ],
  },
  {
    reel: reels.blue,
    make: 'ostrelle',
    srgb: '#1f4e8c',
    place: 'window box',
    from: 1,
    to: 33,
    price: '18.00',
    prints: [
      [4, tackleBox, pair],
      [2, vase, pair],
      [2, tackleBox, gull],
    ],
    weighedEvery: 3,
  },
  {
    reel: reels.orange,
    make: 'ostrelle',
    srgb: '#e8710a',
    place: 'window box',
    from: 22,
    to: 40,
    partUsed: true,
    prints: [[1, hingePin, pair]],
  },
  {
    reel: reels.slate,
    make: 'brannoc',
    srgb: '#5b6770',
    place: 'dry box',
    from: 3,
    to: 40,
    price: '24.90',
    prints: [
      [5, tackleBox, gull],
      [1, batteryDoor, gull],
      [1, tackleBox, gull],
    ],
    jigs_mm: 2_300,
    weighedEvery: 2,
  },
  {
    reel: reels.clear,
    make: 'brannoc',
    srgb: '#dfe7ea',
    place: 'dry box',
    from: 18,
    to: 40,
    partUsed: true,
    prints: [[2, batteryDoor, skiff]],
  },
  {
    reel: reels.shedFind,
    make: 'unknown',
    srgb: '#6b4a2f',
    place: 'under the bench',
    from: 34,
    to: 40,
    partUsed: true,
    prints: [],
  },
  {
    reel: reels.green,
    make: 'hallvaneTpu',
    srgb: '#1e7d4f',
    place: 'dry box',
    from: 5,
    to: 35,
    price: '27.30',
    prints: [[20, gasketSet, pair]],
    jigs_mm: 50_600,
    weighedEvery: 10,
  },
  {
    reel: reels.driftwood,
    make: 'hallvaneWood',
    srgb: '#a58a66',
    place: 'long shelf',
    from: 8,
    to: 39,
    price: '19.80',
    prints: [
      [2, tackleBox, gull],
      [1, vase, gull],
      [3, knob, gull],
    ],
    weighedEvery: 3,
  },
]
