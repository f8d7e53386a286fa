import type {
  AssumptionJson,
  CheckedPrintJson,
  CheckJson,
  EarlierChangeJson,
  MeasuredJson,
  PrinterJudgedJson,
  RunDryPointJson,
  ToolCheckJson,
} from '../contract/index.ts'
import { type Assumption, linearDensityOf, type ReelBelief, tareOf } from '../estimate/index.ts'
import type { Finding } from '../print/index.ts'
import type { Measured } from '../units/index.ts'
import type {
  ChangePoint,
  NextMeasure,
  PrintVerdict,
  RunDryPoint,
  ToolVerdict,
} from '../verdict/index.ts'
import type { ReelBelieved } from './believe-reel.ts'
import {
  changeClock,
  dryClock,
  fromItsStart,
  type PrintTimes,
  printTimeToJson,
  secondsToJson,
} from './clock-to-json.ts'
import { earlierChanges } from './earlier-changes.ts'
import { findingToJson } from './finding-to-json.ts'
import { reelHead } from './reel-head.ts'
import { weakest } from './weakest.ts'
import type { PrinterJudged } from './what-is-asked.ts'
import { workingToJson } from './working-to-json.ts'

/** Everything found out about one tool. */
export interface ToolJudged {
  readonly tool: number
  readonly verdict: ToolVerdict
  readonly belief: ReelBelief
  readonly next: readonly NextMeasure[]
  readonly assumed: readonly Assumption[]
  /** Where it is a reel of the shelf. */
  readonly onShelf?: Pick<ReelBelieved, 'card' | 'working' | 'wound'>
}

/** What a verdict is about. */
export interface WhatWasChecked {
  /** Null when a length or mass stands in for it. */
  readonly print: CheckedPrintJson | null
  readonly findings: readonly Finding[]
  /** Where the print's times are known. */
  readonly times?: PrintTimes
  readonly printer: PrinterJudged
}

const pair = ({ value, u }: Measured): MeasuredJson => ({ value, u })

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null)

const point = (place: RunDryPoint | null): RunDryPointJson | null =>
  place && {
    draw_mm: place.draw_mm,
    share: place.share,
    layer: place.layer,
    height_mm: place.height_mm,
    byte: place.byte,
  }

/** What is assumed, on the wire. */
export const assumptionToJson = ({
  id,
  what,
  value,
  u,
  unit,
  source,
}: Assumption): AssumptionJson => ({
  id,
  what,
  value,
  u,
  unit,
  source: `${source.standing}: ${source.where}`,
})

/** So many tell all that a person chooses among. */
const mostEarlier = 40

const earlierToJson = (
  change: ChangePoint,
  times: PrintTimes | undefined,
): readonly EarlierChangeJson[] =>
  times === undefined
    ? []
    : earlierChanges(fromItsStart(times), change, mostEarlier).map(
        ({ layer, height_mm, ...reached }) => ({
          layer,
          height_mm,
          clock: secondsToJson(reached),
        }),
      )

const toolToJson = (
  { tool, verdict: found, belief, next, assumed, onShelf }: ToolJudged,
  times: PrintTimes | undefined,
): ToolCheckJson => ({
  tool,
  verdict: found.verdict,
  chance: found.chance,
  needed_g: pair(found.needed),
  net_g: pair(found.net),
  margin_g: pair(found.margin),
  left_over_g: pair(found.leftOver),
  needed_mm: pair(found.neededDraw_mm),
  available_mm: {
    value: finite(found.availableDraw_mm.value),
    u: finite(found.availableDraw_mm.u),
  },
  linear_density_g_per_m: pair(linearDensityOf(belief)),
  tare_g: pair(tareOf(belief)),
  run_dry: {
    early: point(found.runDry.early),
    likely: point(found.runDry.likely),
    late: point(found.runDry.late),
    clock: dryClock(found, times),
  },
  change_before: found.changeBefore && {
    layer: found.changeBefore.layer,
    height_mm: found.changeBefore.height_mm,
    draw_mm: found.changeBefore.draw_mm,
    byte: found.changeBefore.byte,
    clock: changeClock(found, times),
    earlier: earlierToJson(found.changeBefore, times),
  },
  next: next.map(({ id, instruction, effort_min, marginSd, settles }) => ({
    id,
    instruction,
    effort_min,
    margin_u_g: marginSd,
    settles,
  })),
  alternatives: found.alternatives.map((each) => ({
    families: each.label,
    weight: each.weight,
    verdict: each.verdict,
    chance: each.chance,
    needed_mm: each.neededDraw_mm,
    needed_g: pair(each.needed),
    margin_g: pair(each.margin),
  })),
  used: belief.used.map(({ id, what, weightOnNet, off, surprising }) => ({
    id,
    what,
    weight_on_net: weightOnNet,
    off,
    surprising,
  })),
  assumed: assumed.map(assumptionToJson),
  notices: belief.notices.map(({ code, message }) => ({ code, message })),
  ...(onShelf && {
    reel: reelHead(onShelf.card),
    working: workingToJson(onShelf.working),
    wound: onShelf.wound,
  }),
})

/** The printer that an answer is reckoned for, on the wire. */
export const printerToJson = ({
  id,
  name = id,
  standsIn,
}: PrinterJudged): PrinterJudgedJson | null =>
  id === undefined || name === undefined ? null : { id, name, stands_in: standsIn === true }

/** The answer on the wire. */
export const checkToJson = (
  whole: PrintVerdict,
  tools: readonly ToolJudged[],
  { print, findings, times, printer }: WhatWasChecked,
): CheckJson => ({
  ...toolToJson(weakest(tools), times),
  verdict: whole.verdict,
  chance: whole.chance,
  confidence: weakest(tools).verdict.confidence,
  tools: tools.map((each) => toolToJson(each, times)),
  printer: printerToJson(printer),
  print,
  time: times === undefined ? null : printTimeToJson(times),
  findings: findings.map(findingToJson),
})
