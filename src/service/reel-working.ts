import type { FactJson, OpenedJson, WeighedJson } from '../contract/index.ts'
import {
  type Assumption,
  linearDensityOf,
  marginal,
  type PrintTold,
  type ReelBelief,
  tareOf,
} from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import type { Measured } from '../units/index.ts'
import { contradictingOf } from '../verdict/index.ts'
import { makeInEstimate } from './contradicted.ts'
import { isDensityOfMaterialTold } from './density-of-material.ts'
import type { ShelfView } from './shelf-view.ts'

/** A weighing of a reel and what hangs on it. */
export interface WorkingWeighing {
  /** Id of the fact. */
  readonly fact: string
  /** Moment. */
  readonly at: string
  readonly reading_g: number
  readonly whenNew: boolean
  /** Share of the net's variance that it alone takes away. */
  readonly weightOnNet: number
  readonly off: number
}

/** A quantity and what it rests on. */
export interface Rest {
  readonly id: 'tare' | 'linear_density' | 'density' | 'diameter' | 'feed_factor'
  readonly value: Measured
  /** A few words: `its own carrier, weighed empty`. */
  readonly on: string
  /** Nobody measured it on this reel, its make or the printer. */
  readonly guessed: boolean
}

/** How the figures of a reel came to be, for a person. */
export interface ReelWorking {
  /** Latest first. */
  readonly weighings: readonly WorkingWeighing[]
  /** Fed after the latest weighing, or at all where there is none. */
  readonly since: { readonly draws: number; readonly length_mm: number }
  /** None where what is told contradicts itself: the figures then are nobody's. */
  readonly rests: readonly Rest[]
}

/** Observations of a reel's whole mass. */
const ofMass: ReadonlySet<string> = new Set(['weighing', 'weighing_now', 'weighing_when_new'])

/** Where a reel is to be printed. */
interface PrintedOn {
  /** Id, where one is in question. */
  readonly printer?: string | undefined
  readonly printTold?: PrintTold | undefined
}

/** What a belief of a reel rests on. */
export const reelWorking = (
  view: Pick<ShelfView, 'standing' | 'estimate' | 'shelf'>,
  card: ReelCard,
  belief: ReelBelief,
  { printer, printTold }: PrintedOn = {},
): ReelWorking => {
  const facts = card.facts.flatMap(({ fact, voided }) => (voided ? [] : [fact]))
  const byId = new Map(facts.map((fact) => [fact.id, fact]))
  const weighings = belief.used
    .flatMap(({ id, fact, weightOnNet, off }): readonly WorkingWeighing[] => {
      const one = fact === undefined ? undefined : byId.get(fact)
      if (one === undefined || !ofMass.has(id) || !isOfMass(one)) return []
      const seen = one.kind === 'weighed' ? one.weighing : one.gross_when_new
      if (seen === undefined) return []
      const { at, kind } = one
      const whenNew = kind === 'opened'
      return [{ fact: one.id, at, reading_g: seen.reading_g, whenNew, weightOnNet, off }]
    })
    .toReversed()
  const last = weighings[0]?.fact
  const from = last === undefined ? 0 : facts.findIndex(({ id }) => id === last) + 1
  const draws = facts.slice(from).filter((fact) => fact.kind === 'drew')
  const isContradicted = contradictingOf(belief).length > 0
  return {
    weighings,
    since: {
      draws: draws.length,
      length_mm: draws.reduce(
        (sum, { length_mm, share }) => sum + length_mm * (share?.value ?? 1),
        0,
      ),
    },
    rests: isContradicted
      ? []
      : [
          { id: 'tare', value: tareOf(belief), ...tareOn(view, card, facts, belief) },
          {
            id: 'linear_density',
            value: linearDensityOf(belief),
            ...linearDensityOn(view, card, facts, belief),
          },
          ...(printer === undefined || belief.nextPrint === undefined
            ? []
            : [feedOn(view, belief, belief.nextPrint, { printer, printTold })]),
        ],
  }
}

const isOfMass = (fact: FactJson): fact is OpenedJson | WeighedJson =>
  fact.kind === 'opened' || fact.kind === 'weighed'

const assumed = ({ assumed: all }: ReelBelief, ...ids: readonly string[]): readonly Assumption[] =>
  all.filter(({ id }) => ids.includes(id))

type On = Pick<Rest, 'on' | 'guessed'>

const known = (on: string): On => ({ on, guessed: false })

const tareOn = (
  { standing, estimate, shelf }: Pick<ShelfView, 'standing' | 'estimate' | 'shelf'>,
  { id, opened }: ReelCard,
  facts: readonly FactJson[],
  belief: ReelBelief,
): On => {
  if (facts.some(({ kind }) => kind === 'carrier-weighed')) {
    return known('its own carrier, weighed empty')
  }
  const size = makeInEstimate(estimate, id)
  const ofMake = shelf.facts.filter(
    (fact) => fact.kind === 'carrier-weighed' && fact.make === size,
  ).length
  if (ofMake > 0) {
    return known(
      ofMake === 1
        ? 'an empty carrier of its make, weighed'
        : `${ofMake} empty carriers of its make, weighed`,
    )
  }
  const stated = standing.facts.some(
    (fact) =>
      fact.kind === 'data-sheet' &&
      fact.make === opened.make &&
      opened.make === size &&
      fact.tare_g !== undefined,
  )
  if (stated) return known('what its maker states')
  const [guess] = assumed(belief, 'tare')
  if (guess !== undefined) return { on: `guessed: ${guess.what}`, guessed: true }
  return known(
    facts.some((fact) => fact.kind === 'opened' && fact.gross_when_new !== undefined)
      ? 'weighed when new, less its label'
      : 'learnt from weighings of its make',
  )
}

const linearDensityOn = (
  { standing, estimate }: Pick<ShelfView, 'standing' | 'estimate'>,
  { id, opened }: ReelCard,
  facts: readonly FactJson[],
  belief: ReelBelief,
): On => {
  const measured = facts.filter((fact) => fact.kind === 'measured')
  const parts = [
    ...(measured.some(({ linear_density_g_per_m: one }) => one) ? ['given for it'] : []),
    ...(measured.some(({ cut }) => cut) ? ['a length cut off it, weighed'] : []),
    ...(measured.some(({ calipers }) => calipers) ? ['calipers'] : []),
    ...(measured.some(({ density_g_per_cm3: one, immersion }) => one ?? immersion)
      ? ['its density, measured']
      : []),
    ...(standing.facts.some(
      (fact) =>
        fact.kind === 'data-sheet' &&
        fact.make === opened.make &&
        fact.density_g_per_cm3 !== undefined,
    )
      ? ["its maker's density"]
      : []),
    ...(isDensityOfMaterialTold(estimate, id) ? ['the density told of its material'] : []),
  ]
  const guesses = assumed(belief, 'density', 'diameter').map((one) => one.id)
  if (guesses.length > 0) {
    const guessed = `${guesses.join(' and ')} guessed`
    return { on: [...parts, guessed].join(', '), guessed: true }
  }
  return known(parts.length > 0 ? parts.join(', ') : 'learnt from weighings around prints')
}

const feedOn = (
  { standing }: Pick<ShelfView, 'standing'>,
  belief: ReelBelief,
  { meanFeedFactor }: NonNullable<ReelBelief['nextPrint']>,
  { printer, printTold }: PrintedOn,
): Rest => {
  const value = marginal(belief.joint, meanFeedFactor)
  if (printTold?.feedFactor) return { id: 'feed_factor', value, on: 'as told here', guessed: false }
  const prints = standing.facts.filter(
    (fact) => fact.kind === 'drew' && fact.printer === printer,
  ).length
  const guessed = assumed(belief, 'feed_factor').length > 0
  return {
    id: 'feed_factor',
    value,
    on: guessed
      ? 'guessed: too little was weighed around its prints'
      : prints === 0
        ? 'as told of the printer'
        : `learnt from ${prints} ${prints === 1 ? 'print' : 'prints'}`,
    guessed,
  }
}
