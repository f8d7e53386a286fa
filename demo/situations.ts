import { type BenchPrinter, bench } from './bench.ts'
import type { DemoPrint } from './demo-print.ts'
import { batteryDoor } from './prints/battery-door.ts'
import { gasketSet } from './prints/gasket-set.ts'
import { hingePin } from './prints/hinge-pin.ts'
import { knob } from './prints/knob.ts'
import { tackleBox } from './prints/tackle-box.ts'
import { twoToolPart } from './prints/two-tool-part.ts'
import { vase } from './prints/vase.ts'
import { type BenchReel, trueLinearDensity } from './reel.ts'
import { reels } from './reels.ts'

/** A print that someone at the bench wants to start. */
export interface Situation {
  readonly name: string
  readonly print: DemoPrint
  readonly printer: BenchPrinter
  /** One reel for each tool of the print, in the order of the print's truth. */
  readonly reels: readonly BenchReel[]
  /** What the bench's own knowledge is meant to be good for. */
  readonly meant: 'enough' | 'close' | 'short'
  readonly why: string
}

const { gull, pair } = bench.printers

/** What the demo shows, in the order in which it is told. */
export const situations: readonly Situation[] = [
  {
    name: 'tackle box in grey',
    print: tackleBox,
    printer: gull,
    reels: [reels.grey],
    meant: 'close',
    why: 'A carrier guessed at 250 g leaves enough on paper, but the guess is wider than the margin.',
  },
  {
    name: 'tackle box in white',
    print: tackleBox,
    printer: gull,
    reels: [reels.white],
    meant: 'enough',
    why: 'Four times what is needed, on a carrier of known weight.',
  },
  {
    name: 'tackle box in black',
    print: tackleBox,
    printer: gull,
    reels: [reels.black],
    meant: 'close',
    why: 'The carrier is known, but the margin is thinner than what diameter and printer leave open.',
  },
  {
    name: 'tackle box in yellow',
    print: tackleBox,
    printer: gull,
    reels: [reels.yellow],
    meant: 'enough',
    why: 'New: the unknown carrier does not matter beside a full reel.',
  },
  {
    name: 'vase in blue',
    print: vase,
    printer: gull,
    reels: [reels.blue],
    meant: 'short',
    why: 'Not two thirds of what is needed, on a carrier of known weight.',
  },
  {
    name: 'vase in red',
    print: vase,
    printer: gull,
    reels: [reels.red],
    meant: 'close',
    why: 'A cardboard carrier whose weight nobody knows decides it.',
  },
  {
    name: 'battery door in slate',
    print: batteryDoor,
    printer: gull,
    reels: [reels.slate],
    meant: 'enough',
    why: 'A small print and a reel with good figures.',
  },
  {
    name: 'battery door in clear',
    print: batteryDoor,
    printer: gull,
    reels: [reels.clear],
    meant: 'close',
    why: 'The last turns: weighing one empty carrier would settle it.',
  },
  {
    name: 'hinge pin in shed-find',
    print: hingePin,
    printer: gull,
    reels: [reels.shedFind],
    meant: 'close',
    why: 'Lighter than the guessed carrier, yet there is filament to see: the guess is wrong.',
  },
  {
    name: 'gaskets in green',
    print: gasketSet,
    printer: gull,
    reels: [reels.green],
    meant: 'enough',
    why: 'Oval filament, but plenty of it.',
  },
  {
    name: 'knob in driftwood',
    print: knob,
    printer: gull,
    reels: [reels.driftwood],
    meant: 'enough',
    why: 'A filled grade whose linear density comes from a weighed cut length.',
  },
  {
    name: 'channel marker in white and orange',
    print: twoToolPart,
    printer: pair,
    reels: [reels.white, reels.orange],
    meant: 'close',
    why: 'Two tools: one reel is enough, the other is close, and the print is what the worse one is.',
  },
]

/** What would truly happen to one tool of a situation. */
export interface TrueEnd {
  readonly tool: number
  /** Filament the reel can give up, mm. */
  readonly available_mm: number
  /** Filament the printer would take, mm. */
  readonly needed_mm: number
  readonly finishes: boolean
}

/** Looks behind the scenes: what happens if the print is started, tool by tool. */
export const trueEnds = ({ print, printer, reels: loaded }: Situation): readonly TrueEnd[] =>
  print.truth.tools.map(({ tool, peak_mm }, index) => {
    const reel = loaded[index]
    if (reel === undefined) throw new RangeError(`${print.name}: no reel for tool ${tool}`)
    const { feedFactor, startAllowance_mm, tail_mm } = printer.hidden
    const held_mm = (reel.hidden.net_g / trueLinearDensity(reel.hidden)) * 1000
    const available_mm = Math.max(0, held_mm - tail_mm)
    const needed_mm = feedFactor * peak_mm + startAllowance_mm
    return { tool, available_mm, needed_mm, finishes: available_mm >= needed_mm }
  })
