import {
  type FactJson,
  idLength,
  type MeasuredJson,
  type PutRightJson,
  readId,
  showId,
} from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { findReel } from './find-reel.ts'
import { findRow } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { newFactId } from './new-id.ts'
import { type Recorded, record, reelOf } from './record.ts'
import { factCommon, type Said } from './said.ts'
import { type ShelfView, shelfView } from './shelf-view.ts'
import { recordWeighing, type Weighed } from './weigh.ts'

/** A fact that does not hold, and what holds in its place. */
export interface PutRightInput extends Said {
  /** Id of the fact. */
  readonly fact: string
  readonly reason: string
  /** The right figure, where it has a mass. */
  readonly mass_g?: MeasuredJson
  /** The right figure, where it has a length. */
  readonly length_mm?: MeasuredJson
  /** The reel it was. */
  readonly reel?: string
  /** The make it is, for `opened` and an empty carrier. */
  readonly make?: string
  /** True to take the right figure though it is surprising. */
  readonly accept?: boolean
}

/** What was written down, unless the right figure is a weighing too surprising to take. */
export interface PutRight {
  readonly recorded?: Recorded
  readonly weighed?: Weighed
}

/**
 * Declares a fact void, and records the right one in the same transaction where one is told. A
 * put-right that is put right makes the fact hold again that it had voided.
 *
 * @returns `fact_unknown`, `fact_void`, `nothing_instead`, as `findReel`, `findRow`, `record`
 */
export const putRight = async (
  handed: HandedIn,
  input: PutRightInput,
): Promise<Outcome<PutRight>> => {
  const id = readId(input.fact, idLength.fact)
  if (!id.ok) return id
  const seen = await shelfView(handed.store)
  if (!seen.ok) return seen
  const view = seen.value
  const wrong = view.facts.find((fact) => fact.id === id.value)
  if (wrong === undefined) {
    return refuse({
      code: 'fact_unknown',
      message: `There is no fact ${showId(id.value)} in this ledger. Each reel's facts stand in reelreckon reel show ID.`,
      received: input.fact,
    })
  }
  const by = view.standing.voided.get(wrong.id)
  if (by !== undefined) {
    return refuse({
      code: 'fact_void',
      message: `${showId(wrong.id)} does not hold any more: ${showId(by.id)} put it right (${by.reason}). To make it hold again, put that right.`,
      received: input.fact,
    })
  }
  const instead = insteadOf(handed, view, wrong, input)
  if (!instead.ok) return instead
  const right = instead.value
  const fact: PutRightJson = {
    kind: 'put-right',
    ...factCommon(handed, saidOf(input)),
    voids: wrong.id,
    reason: input.reason,
    ...(right && { instead: right.id }),
  }
  if (right?.kind === 'weighed' || right?.kind === 'carrier-weighed') {
    const scale = view.rows.find((row) => row.id === right.weighing.scale)
    if (scale?.kind === 'scale') {
      const tested = { fact: right, scale: { scale, isNew: false }, accept: input.accept === true }
      const weighed = await recordWeighing(handed, view, { ...tested, facts: [fact] })
      if (!weighed.ok) return weighed
      const { recorded } = weighed.value
      return accept({ weighed: weighed.value, ...(recorded && { recorded }) })
    }
  }
  const about = wrong.kind === 'put-right' ? reelsOfVoid(view, wrong.voids) : reelOf(wrong)
  const facts = right === undefined ? [fact] : [right, fact]
  const recorded = await record(handed, view, { facts }, [], about)
  return recorded.ok ? accept({ recorded: recorded.value }) : recorded
}

/** What was wrong happened when it did; that it is put right is said now. */
const saidOf = ({ id, note }: PutRightInput): Said => ({
  ...(id !== undefined && { id }),
  ...(note !== undefined && { note }),
})

const reelsOfVoid = ({ facts }: ShelfView, id: string): readonly string[] =>
  facts.filter((fact) => fact.id === id).flatMap(reelOf)

/** The fact with what is right in it, or none where it is only declared void. */
const insteadOf = (
  handed: HandedIn,
  view: ShelfView,
  wrong: FactJson,
  { mass_g, length_mm, reel, make, at }: PutRightInput,
): Outcome<FactJson | undefined> => {
  if ([mass_g, length_mm, reel, make, at].every((part) => part === undefined)) {
    return accept(undefined)
  }
  const { recorded_at } = factCommon(handed, {})
  let right: FactJson = {
    ...wrong,
    id: newFactId(handed),
    recorded_at,
    ...(at !== undefined && { at }),
  }
  if (mass_g !== undefined) {
    const changed = withMass(right, mass_g)
    if (changed === undefined) return nothingInstead(wrong, 'mass')
    right = changed
  }
  if (length_mm !== undefined) {
    if (right.kind === 'trimmed') {
      const { mass_g: _mass, ...rest } = right
      right = { ...rest, length_mm }
    } else if (right.kind === 'drew') {
      right = { ...right, length_mm: length_mm.value }
    } else if (right.kind === 'ran-dry') {
      right = { ...right, tail_mm: length_mm }
    } else return nothingInstead(wrong, 'length')
  }
  if (reel !== undefined) {
    const found = findReel(view, reel)
    if (!found.ok) return found
    if (!('reel' in right) || right.kind === 'opened') return nothingInstead(wrong, 'reel')
    right = { ...right, reel: found.value }
    if (right.kind === 'carrier-weighed') {
      right = { ...right, make: view.cards.get(found.value)!.opened.make }
    }
  }
  if (make !== undefined) {
    const found = findRow(view.rows, 'make', make)
    if (!found.ok) return found
    if (!('make' in right)) return nothingInstead(wrong, 'make')
    right = { ...right, make: found.value.id }
  }
  return accept(right)
}

/** Figures of a weighing are taken at the scale's word; a stated doubt is the new figure's. */
const withMass = (fact: FactJson, { value, u }: MeasuredJson): FactJson | undefined => {
  if (fact.kind === 'weighed' || fact.kind === 'carrier-weighed') {
    const { u_g: _u, ...weighing } = fact.weighing
    const { ...rest } = fact
    if (rest.kind === 'weighed') delete (rest as { accepted_off?: number }).accepted_off
    return { ...rest, weighing: { ...weighing, reading_g: value, ...(u > 0 && { u_g: u }) } }
  }
  if (fact.kind !== 'trimmed') return undefined
  const { length_mm: _length, ...rest } = fact
  return { ...rest, mass_g: { value, u } }
}

const nothingInstead = (fact: FactJson, what: string): ReturnType<typeof refuse> =>
  refuse({
    code: 'nothing_instead',
    message: `A fact of the kind ${fact.kind} has no ${what} to put right. Put it right without one, then record what is right.`,
    received: fact.kind,
  })
