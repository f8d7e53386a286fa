import type {
  DriedJson,
  EmptiedJson,
  FactCommonJson,
  FactJson,
  MovedJson,
  RanDryJson,
  RetiredJson,
  TrimmedJson,
} from '../contract/index.ts'
import type { Outcome } from '../units/index.ts'
import { findReel } from './find-reel.ts'
import type { HandedIn } from './handed-in.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import { shelfView } from './shelf-view.ts'
import { checkRunDry } from './surprise-of-run-dry.ts'

type PartOf<F> = F extends FactCommonJson ? Omit<F, keyof FactCommonJson | 'reel'> : never

/** What can befall a reel and needs no more than saying so. */
export type ReelEvent = PartOf<
  TrimmedJson | EmptiedJson | RanDryJson | DriedJson | MovedJson | RetiredJson
>

/**
 * Writes down what befell a reel: trimmed, emptied, ran dry, dried, moved, retired.
 *
 * @param typed - the reel's id as a person writes it
 * @returns `run_dry_surprising` unless that is accepted, as `findReel`, `record`
 */
export const recordOfReel = async (
  handed: HandedIn,
  typed: string,
  event: ReelEvent,
  { accept: isAccepted, ...said }: Said & { readonly accept?: boolean } = {},
): Promise<Outcome<Recorded>> => {
  const view = await shelfView(handed.store)
  if (!view.ok) return view
  const reel = findReel(view.value, typed)
  if (!reel.ok) return reel
  const fact: FactJson = { ...factCommon(handed, said), ...event, reel: reel.value }
  if (fact.kind !== 'ran-dry') return record(handed, view.value, { facts: [fact] })
  const likely = checkRunDry(view.value, reel.value, { isAccepted: isAccepted === true })
  if (!likely.ok) return likely
  return record(handed, view.value, { facts: [{ ...fact, ...likely.value }] })
}
