import type { MeasuredJson, ReelShowJson } from '../contract/index.ts'
import type { Measured } from '../units/index.ts'
import { assumptionToJson } from './check-to-json.ts'
import { contradictedToJson } from './contradicted-to-json.ts'
import { reelHead } from './reel-head.ts'
import type { ReelStory, StoryMoments } from './reel-story.ts'
import { toldFactToJson } from './told-fact-to-json.ts'
import { workingToJson } from './working-to-json.ts'

/** A reel's story with what its facts say. */
export interface ToldStory extends ReelStory, StoryMoments {
  /** Of each fact of the card, in a sentence. */
  readonly what: readonly string[]
}

const pair = (one: Measured | undefined): MeasuredJson | null =>
  one === undefined ? null : { value: one.value, u: one.u }

/** All there is to know of a reel, on the wire. */
export const reelShowToJson = ({
  card,
  wound,
  known,
  at,
  knownAt,
  what,
}: ToldStory): ReelShowJson => ({
  reel: reelHead(card),
  opened_at: card.openedAt,
  at: at ?? null,
  known_at: knownAt ?? null,
  net_g: pair(known?.net),
  length_mm: pair(known?.length),
  tare_g: pair(known?.tare),
  linear_density_g_per_m: pair(known?.linearDensity),
  wound,
  working: known?.working === undefined ? null : workingToJson(known.working),
  next:
    known?.next === undefined
      ? null
      : {
          id: known.next.id,
          instruction: known.next.instruction,
          effort_min: known.next.effort_min,
          net_u_g: known.next.netSd,
          length_u_mm: known.next.lengthSd,
        },
  assumed: (known?.assumed ?? []).map(assumptionToJson),
  cost:
    known?.cost === undefined
      ? null
      : { paid: known.cost.paid, gone: pair(known.cost.gone)!, left: pair(known.cost.left)! },
  contradicted: known?.contradicted === undefined ? null : contradictedToJson(known.contradicted),
  notices: (known?.notices ?? []).map(({ code, message }) => ({ code, message })),
  facts: card.facts.map((one, place) => toldFactToJson(one, what[place] ?? one.fact.kind)),
})
