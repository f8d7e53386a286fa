import type { MaterialToTakeJson, RankedReelJson, ShelfCheckJson } from '../contract/index.ts'
import type { RankedReel, ShelfAnswer } from './check-shelf.ts'
import { printerToJson, type WhatWasChecked } from './check-to-json.ts'
import { printTimeToJson } from './clock-to-json.ts'
import { findingToJson } from './finding-to-json.ts'
import { reelHead } from './reel-head.ts'
import type { TwoReels } from './two-reels.ts'

const ranked = ({
  card,
  verdict,
  chance,
  net,
  leftOver,
  margin,
  contradicting,
  feedsPrintsOn,
  next,
}: RankedReel): RankedReelJson => ({
  reel: reelHead(card),
  verdict,
  chance,
  net_g: { value: net.value, u: net.u },
  left_over_g: { value: leftOver.value, u: leftOver.u },
  margin_g: { value: margin.value, u: margin.u },
  contradicting,
  feeds_prints_on: feedsPrintsOn,
  next: next && {
    id: next.id,
    instruction: next.instruction,
    effort_min: next.effort_min,
    settles: next.settles,
  },
})

/** The shelf's answer with what it is about. */
export interface ShelfChecked extends ShelfAnswer, WhatWasChecked {
  readonly confidence: number
  /** Two reels that do it together where none is enough. */
  readonly two: TwoReels | null
  /** Nominal diameter of the reels judged, mm. */
  readonly diameter_mm: number
  /** Reels that would fit but for their diameter. */
  readonly otherDiameter: number
  /** Of all that fit, whatever material is asked for. */
  readonly materials: readonly MaterialToTakeJson[]
}

/** How much of the answer is told. */
export interface ToldReels {
  /** With the reels that are short. */
  readonly all: boolean
  /** No more reels than this for each tool. */
  readonly most?: number
}

/** The shelf's answer on the wire. */
export const shelfCheckToJson = (
  found: ShelfChecked,
  { all, most = Infinity }: ToldReels,
): ShelfCheckJson => ({
  verdict: found.verdict,
  chance: found.chance,
  confidence: found.confidence,
  diameter_mm: found.diameter_mm,
  other_diameter: found.otherDiameter,
  materials: found.materials,
  printer: printerToJson(found.printer),
  tools: found.tools.map(({ tool, draw_mm, counts, reels }) => ({
    tool,
    needed_mm: draw_mm,
    ...counts,
    reels: reels
      .slice(0, Math.min(most, all ? reels.length : counts.enough + counts.close + 1))
      .map(ranked),
  })),
  two_reels: found.two && {
    first: reelHead(found.two.first),
    second: reelHead(found.two.second),
    after_layer: found.two.afterLayer,
    height_mm: found.two.height_mm,
  },
  print: found.print,
  time: found.times === undefined ? null : printTimeToJson(found.times),
  findings: found.findings.map(findingToJson),
})
