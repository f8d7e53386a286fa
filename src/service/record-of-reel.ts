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
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import { checkRunDry } from './surprise-of-run-dry.ts'
import { checkHeld } from './surprise-of-taking.ts'
import { checkWeighedSince } from './weighed-since.ts'

type PartOf<F> = F extends FactCommonJson ? Omit<F, keyof FactCommonJson | 'reel'> : never

/** What can befall a reel and needs no more than saying so. */
export type ReelEvent = PartOf<
  TrimmedJson | EmptiedJson | RanDryJson | DriedJson | MovedJson | RetiredJson
>

/**
 * Writes down what befell a reel: trimmed, emptied, ran dry, dried, moved, retired.
 *
 * @param typed - the reel's id as a person writes it
 * @returns `run_dry_surprising`, `drew_more_than_held`, `weighed_since` unless that is accepted, as `findReel`, `record`
 */
export const recordOfReel = (
  handed: HandedIn,
  typed: string,
  event: ReelEvent,
  { accept, ...said }: Said & { readonly accept?: boolean } = {},
): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const reel = findReel(view, typed)
    if (!reel.ok) return reel
    const fact: FactJson = { ...factCommon(handed, said), ...event, reel: reel.value }
    const { at } = fact
    const isAccepted = accept === true
    if (fact.kind === 'trimmed') {
      const { mass_g, length_mm } = fact
      const cut = { ...(mass_g && { mass_g }), ...(length_mm && { length_mm }) }
      const held = checkHeld(view, reel.value, { at, ...cut, isAccepted })
      if (!held.ok) return held
      const facts = [{ ...fact, ...held.value }]
      const fits = checkWeighedSince(view, { facts, reels: [fact], isAccepted })
      return fits.ok ? record(handed, view, { facts }) : fits
    }
    if (fact.kind !== 'ran-dry') return record(handed, view, { facts: [fact] })
    const { tail_mm } = fact
    const dry = { at, ...(tail_mm && { tail_mm }), isAccepted }
    const likely = checkRunDry(view, reel.value, dry)
    if (!likely.ok) return likely
    return record(handed, view, { facts: [{ ...fact, ...likely.value }] })
  })
