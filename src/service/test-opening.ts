import type { CatalogueRowJson, OpenedJson, WeighedJson } from '../contract/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { ScaleChosen } from './choose-scale.ts'
import type { HandedIn } from './handed-in.ts'
import { newFactId } from './new-id.ts'
import { reelOf } from './record.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'
import { type Acceptance, isTaken, recordWeighing, type Weighed } from './weigh.ts'

/** An opening that is about to be written down. */
export interface TestedOpening {
  readonly opened: OpenedJson
  /** The scale of its weighing. */
  readonly scale: ScaleChosen
  readonly accept: Acceptance
  /** New rows that it needs: its make. */
  readonly rows?: readonly CatalogueRowJson[]
}

/**
 * Holds the weighing of an opening against what the shelf expects of such a reel when it arrives:
 * without its own facts, which are of a time when something may have been fed.
 *
 * @returns the weighing that is too surprising to take; undefined where it agrees, is accepted, or the
 *   opening has none
 */
export const testOpening = async (
  handed: HandedIn,
  view: ShelfView,
  { opened, scale, accept: accepted, rows = [] }: TestedOpening,
): Promise<Outcome<Weighed | undefined>> => {
  const { gross_when_new: weighing, ...unweighed } = opened
  if (weighing === undefined || accepted === true) return accept(undefined)
  const others = view.facts.some((fact) => reelOf(fact).includes(opened.reel))
    ? viewOf(view.rows, withoutReel(view, opened.reel), -1, view.spreads)
    : accept(view)
  if (!others.ok) return others
  const { reel, at, recorded_at } = opened
  const id = newFactId(handed)
  const fact: WeighedJson = { kind: 'weighed', id, at, recorded_at, reel, weighing }
  const asked = { fact, scale, accept: accepted, test: true, rows, facts: [unweighed] }
  const tested = await recordWeighing(handed, others.value, asked)
  if (!tested.ok) return tested
  const { surprise } = tested.value
  if (!surprise.surprising || isTaken(surprise, accepted)) return accept(undefined)
  return accept({ ...tested.value, opened })
}

const withoutReel = ({ standing }: ShelfView, reel: string): ShelfView['facts'] =>
  standing.facts.filter((fact) => !reelOf(fact).includes(reel))
