import type { RecordedJson, ReelNowJson, SurpriseJson } from '../contract/index.ts'
import type { Measured } from '../units/index.ts'
import { causeSentence } from './cause-sentence.ts'
import { contradictedToJson } from './contradicted-to-json.ts'
import { nameOfReel } from './name-of-reel.ts'
import type { Recorded } from './record.ts'
import type { ReelNow } from './reel-now.ts'
import type { Weighed } from './weigh.ts'

const figure = ({ value, u }: Measured): { value: number; u: number } => ({ value, u })

/** @internal */
const nowJson = ({ net, length, tare, linearDensity }: ReelNow): ReelNowJson => ({
  net_g: figure(net),
  length_mm: figure(length),
  tare_g: figure(tare),
  linear_density_g_per_m: figure(linearDensity),
})

const surpriseJson = ({ surprise, view }: Weighed): SurpriseJson => ({
  expected_g: figure(surprise.predicted),
  off_g: surprise.innovation,
  off: surprise.off,
  surprising: surprise.surprising,
  causes: surprise.causes.map((cause) => ({
    code: cause.code,
    weight: cause.weight,
    reel: cause.reel ?? null,
    mass_g: cause.mass === undefined ? null : figure(cause.mass),
    reading_g: cause.reading ?? null,
    message: causeSentence(cause, (reel) => {
      const card = view.cards.get(reel)
      return card === undefined ? reel : nameOfReel(card)
    }),
  })),
})

/** What was recorded, and the test of its weighing, as data. */
export const recordedToJson = (
  recorded: Recorded | undefined,
  weighed?: Weighed,
): RecordedJson => ({
  recorded: recorded !== undefined,
  facts: recorded?.facts ?? [],
  rows: recorded?.rows ?? [],
  reels: (recorded?.reels ?? []).map(({ reel, before, now }) => {
    const card = recorded?.view.cards.get(reel)
    return {
      reel,
      name: card === undefined ? reel : nameOfReel(card),
      before: before === undefined ? null : nowJson(before),
      now: now === undefined ? null : nowJson(now),
    }
  }),
  surprise: weighed === undefined ? null : surpriseJson(weighed),
  contradicted: (weighed?.contradicted ?? []).map(contradictedToJson),
  notes: recorded?.notes ?? [],
})
