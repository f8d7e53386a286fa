import type { ColourJson, OpenedJson, PriceJson, WeighedJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { chooseMake, type MakeTold } from './choose-make.ts'
import { chooseScale } from './choose-scale.ts'
import type { HandedIn } from './handed-in.ts'
import { newRowId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'
import type { ShelfView } from './shelf-view.ts'
import { testOpening } from './test-opening.ts'
import { type Acceptance, recordWeighing, type Weighed } from './weigh.ts'
import { type WeighingTold, weighingOf } from './weighing-told.ts'

/** A reel that arrives. */
export interface NewReel extends Said {
  readonly make: MakeTold
  /** Net mass on its label, g; that of its make unless given. */
  readonly label_net_g?: number
  readonly grossWhenNew?: WeighingTold
  /** As it stands on the scale now. */
  readonly gross?: WeighingTold
  readonly partUsed?: boolean
  readonly price?: PriceJson
  readonly colour?: ColourJson
  readonly lot?: string
  readonly place?: string
  /** How many alike; 1 unless given. */
  readonly count?: number
  /** Of its weighing, now or when new. */
  readonly accept?: Acceptance
}

/** Reels that arrived, or a first weighing that was too surprising to take. */
export interface ReelsAdded {
  /** Their ids; none where nothing was written down. */
  readonly reels: readonly string[]
  readonly recorded?: Recorded
  readonly weighed?: Weighed
}

/** So many may arrive at once. */
const mostAtOnce = 1000

/**
 * Puts reels on the shelf, each with an id of its own; its weighing, now or when new, is tested as every
 * other.
 *
 * @returns `count_out_of_range`, `one_reel_on_the_scale`, as `chooseMake`, `chooseScale`, `record`
 */
export const addReel = async (handed: HandedIn, reel: NewReel): Promise<Outcome<ReelsAdded>> => {
  const { count = 1, gross, grossWhenNew } = reel
  if (!(Number.isInteger(count) && count >= 1 && count <= mostAtOnce)) {
    return refuse({
      code: 'count_out_of_range',
      message: `${count} reels at once can not be added. Give a count from 1 to ${mostAtOnce}.`,
    })
  }
  if (count > 1 && (gross ?? grossWhenNew) !== undefined) {
    return refuse({
      code: 'one_reel_on_the_scale',
      message: 'Reels are weighed one by one: add them first, then weigh each by its id.',
    })
  }
  return overShelf(handed, (view) => addToShelf(handed, view, reel))
}

const addToShelf = async (
  handed: HandedIn,
  view: ShelfView,
  reel: NewReel,
): Promise<Outcome<ReelsAdded>> => {
  const { count = 1, gross, grossWhenNew } = reel
  const chosen = chooseMake(handed, view.rows, {
    ...reel.make,
    ...(reel.label_net_g !== undefined && { label_net_g: reel.label_net_g }),
  })
  if (!chosen.ok) return chosen
  const { make, isNew } = chosen.value
  const notes = isNew ? [`The make ${make.maker} ${make.name} is new here (${make.id}).`] : []
  const rows = isNew ? [make] : []
  const told = gross ?? grossWhenNew
  const scale = told && chooseScale(handed, view.rows, told.scale)
  if (scale?.ok === false) return scale

  const taken = new Set([...view.cards.keys(), ...view.rows.map(({ id }) => id), make.id])
  // Ids of reels put right stay theirs, so that no old label names a new reel.
  for (const fact of view.facts) if (fact.kind === 'opened') taken.add(fact.reel)
  const label = reel.label_net_g ?? make.label_net_g
  const { price, colour, lot, place } = reel
  const { id: _id, ...said } = reel
  const opened = Array.from({ length: count }, (_, number): OpenedJson => {
    const id = newRowId(handed, (each) => taken.has(each))
    taken.add(id)
    return {
      kind: 'opened',
      ...factCommon(handed, number === 0 ? reel : said),
      reel: id,
      make: make.id,
      ...(label !== undefined && { label_net_g: label }),
      ...(grossWhenNew && scale && { gross_when_new: weighingOf(grossWhenNew, scale.value.scale) }),
      ...(reel.partUsed === true && { part_used: true as const }),
      ...(price && { price }),
      ...(colour && { colour }),
      ...(lot !== undefined && { lot }),
      ...(place !== undefined && { place }),
    }
  })
  const reels = opened.map((fact) => fact.reel)
  if (gross !== undefined && scale !== undefined) {
    const fact: WeighedJson = {
      kind: 'weighed',
      ...factCommon(handed, said),
      reel: opened[0]!.reel,
      weighing: weighingOf(gross, scale.value.scale),
    }
    const tested = { fact, scale: scale.value, accept: reel.accept ?? false, rows, facts: opened }
    const weighed = await recordWeighing(handed, view, { ...tested, notes })
    if (!weighed.ok) return weighed
    const { recorded } = weighed.value
    return accept({
      reels: recorded ? reels : [],
      weighed: weighed.value,
      ...(recorded && { recorded }),
    })
  }
  if (scale !== undefined) {
    const [first] = opened as [OpenedJson]
    const arriving = { opened: first, scale: scale.value, accept: reel.accept ?? false, rows }
    const surprising = await testOpening(handed, view, arriving)
    if (!surprising.ok) return surprising
    if (surprising.value !== undefined) return accept({ reels: [], weighed: surprising.value })
  }
  const withScale = scale?.value.isNew === true ? [...rows, scale.value.scale] : rows
  const recorded = await record(handed, view, { facts: opened, rows: withScale }, notes)
  return recorded.ok ? accept({ reels, recorded: recorded.value }) : recorded
}
