import { benchCaliper, crossSectionOfPlaces } from '../filament/index.ts'
import { surprise } from './belief-notices.ts'
import { covarianceOf, type LinearForm, marginal } from './joint-normal.ts'
import type { UsedObservation } from './reel-belief.ts'
import { reelChain } from './shelf-chain.ts'
import type { DampPoint } from './shelf-damp-mass.ts'
import { type ShelfEstimate, withApart } from './shelf-estimate.ts'
import type { ReelMeasured, ShelfFact } from './shelf-facts.ts'
import { jointOfReel, type Wanted } from './shelf-joint.ts'
import { shelfNames, wantedOfMake } from './shelf-posterior.ts'
import { reelState } from './shelf-state.ts'
import { type Tape, tapeKinds, tapeWidth } from './shelf-tape.ts'

/** What is said of an observation, in the order in which the tape has its rows. */
type Said = Pick<UsedObservation, 'id' | 'what'> & { readonly fact: string; readonly u?: number }

/** A variance below which nothing is left to know, g² or (g/m)². */
const nothing = 1e-18
const netThen = 'net_then'
const waterThen = 'water_then'
const one = (name: string): LinearForm => ({ terms: { [name]: 1 } })

/**
 * Each observation of a reel against all that is known without it, the rest of the shelf included.
 *
 * With the posterior in hand nothing is estimated anew: where an observation of own variance r has
 * the posterior mean ŷ and the posterior variance v, the others alone leave it r²/(r − v) of
 * variance, itself included, and it lies (y − ŷ)/√(r − v) standard deviations off them.
 *
 * @param reel - its place
 * @param lastOnly - only the last observation of the net
 * @param scale - id: a weighing on another one is not what a weighing now would repeat
 * @see R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982), from memory
 */
export const usedOfReel = (
  estimate: ShelfEstimate,
  reel: number,
  lastOnly: boolean,
  scale: string | undefined,
): readonly UsedObservation[] => {
  if (estimate.apart.has(reel)) {
    // What its readings say of all that is shared has to be in the posterior they are held against.
    const others = new Set(estimate.apart)
    others.delete(reel)
    return usedOfReel(withApart(estimate, others), reel, lastOnly, scale)
  }
  const { book, point, reelFacts, tapes, blocks } = estimate
  const tape = tapes[reel]!
  const make = book.makeOfReel[reel]!
  const lambda = point.linearDensity[reel]!
  const { seen, lastChange } = placesOf(tape)
  const isDamp = tape.water !== undefined
  const keptAt = isDamp ? 4 : 3
  const last = seen.findLast(({ onNet }) => onNet)
  const picked = lastOnly ? (last ? [last] : []) : seen
  return picked.map((observed) => {
    const { place } = observed
    const isUnchanged = place > lastChange
    // Water changes with time alone, and where its product was expanded is told with the row only.
    const isNow = isUnchanged && !isDamp
    const block = isNow ? blocks[reel]! : reelChain(tape, book, make, point, lambda, { row: place })
    const row = rowOf(tape, observed, block.dampAt)
    const { column, variance: given } = row
    const joint = jointOfReel(estimate, block, make, [
      { name: shelfNames.tare, state: reelState.tare },
      { name: shelfNames.net, state: reelState.net },
      { name: shelfNames.linearDensity, state: reelState.linear },
      { name: netThen, state: isNow ? reelState.net : keptAt },
      ...(isDamp ? [{ name: waterThen, state: keptAt + 1 } satisfies Wanted] : []),
      // Most rows are weighings, which say nothing of the make but by its reels.
      ...(row.onMake ? wantedOfMake(book.makes[make]!) : []),
      ...(column < 0 ? [] : [{ name: shelfNames.gain, column } satisfies Wanted]),
    ])
    const variance = row.isDry ? lambda ** 2 * given : given
    const { value, u } = marginal(joint, row.form)
    const rest = Math.max(variance - u ** 2, Number.EPSILON * variance)
    const weightOn = (form: LinearForm): number => {
      const taken = covarianceOf(joint, form, row.form) ** 2 / rest
      const left = marginal(joint, form).u ** 2
      // Of what is known exactly, as an emptied reel's net, rounding alone would take a share.
      return left < nothing ? 0 : taken / (left + taken)
    }
    const off = (row.value - value) / Math.sqrt(rest)
    const {
      id,
      what,
      fact,
      u: own = Math.sqrt(variance),
    } = saidOf(reelFacts[reel]!, seen.length - 1 - observed.nth)
    const repeats =
      id === 'weighing' && isUnchanged && (scale === undefined || scaleOf(book, column) === scale)
    return {
      id: repeats ? 'weighing_now' : id,
      fact,
      what,
      u: own,
      weightOnNet: weightOn(one(shelfNames.net)),
      weightOnLinearDensity: weightOn(one(shelfNames.linearDensity)),
      off,
      surprising: Math.abs(off) > surprise,
    }
  })
}

/** Where an observation stands. */
interface Place {
  /** Row of the tape. */
  readonly place: number
  /** Its first number. */
  readonly from: number
  /** Which observation it is, from 0. */
  readonly nth: number
  /** Whether the net is in it. */
  readonly onNet: boolean
}

const isSeen = (kind: number): boolean => kind === tapeKinds.seen || kind === tapeKinds.seenDamp

const placesOf = ({ kind, numbers }: Tape): { seen: readonly Place[]; lastChange: number } => {
  const seen: Place[] = []
  let lastChange = -1
  let from = 0
  for (let place = 0; place < kind.length; place++) {
    const isDry = kind[place] === tapeKinds.ranDry
    if (isDry || isSeen(kind[place]!)) {
      seen.push({ place, from, nth: seen.length, onNet: isDry || numbers[from + 3] !== 0 })
    } else lastChange = place
    from += tapeWidth(kind[place]!)
  }
  return { seen, lastChange }
}

/** A row of the tape in names. */
interface Row {
  readonly isDry: boolean
  /** Core column of the gain, or −1. */
  readonly column: number
  readonly value: number
  readonly variance: number
  readonly form: LinearForm
  /** True where means of the make are in the form. */
  readonly onMake: boolean
}

/** @param damp - where the product with the water was expanded, for filament weighed with it */
const rowOf = (
  { kind, who, columns, numbers }: Tape,
  { place, from }: Place,
  damp: DampPoint | undefined,
): Row => {
  if (kind[place] === tapeKinds.ranDry) {
    const [tail, variance] = [numbers[from]!, numbers[from + 1]!]
    const form = { terms: { [netThen]: 1, [shelfNames.linearDensity]: -tail } }
    return { isDry: true, column: -1, value: 0, variance, form, onMake: false }
  }
  const part = numbers.subarray(from, from + tapeWidth(tapeKinds.seen))
  const [value, variance, tare, net, linear, meanTare, density, ofGain] = part as unknown as Eight
  const met = who[place]!
  const column = met < 0 ? -1 : columns[met]!
  const terms: Record<string, number> = {
    [shelfNames.tare]: tare,
    [netThen]: net,
    [shelfNames.linearDensity]: linear,
  }
  const onMake = meanTare !== 0 || density !== 0
  if (onMake) {
    terms[shelfNames.makeTare] = meanTare
    terms[shelfNames.makeDensity] = density
  }
  if (column >= 0) terms[shelfNames.gain] = ofGain
  const dry = { isDry: false, column, value, variance, onMake }
  if (damp === undefined) return { ...dry, form: { terms } }
  const { mass, water } = damp
  terms[netThen] = net * (1 + water)
  terms[shelfNames.linearDensity] = linear * (1 + water)
  terms[waterThen] = mass
  return { ...dry, form: { terms, constant: -mass * water } }
}

type Eight = readonly [number, number, number, number, number, number, number, number]

const scaleOf = (
  { catalogue, printers }: ShelfEstimate['book'],
  column: number,
): string | undefined => catalogue.scales[column - 2 * printers.length]?.id

/** What to say of the observation that has so many after it. */
const saidOf = (facts: readonly ShelfFact[], after: number): Said => {
  let left = after
  for (let i = facts.length - 1; i >= 0; i--) {
    const { kind } = facts[i]!
    if (kind === 'drew' || kind === 'trimmed') continue
    const said = saidOfFact(facts[i]!)
    if (left < said.length) return said[said.length - 1 - left]!
    left -= said.length
  }
  throw new RangeError('more observations on the tape than in the facts')
}

/** To a hundredth of a gram, as finely as scales show: ounces have no end in grams. */
const shownOf = (reading: number): number => Math.round(reading * 100) / 100

/** As `TapeWriter` writes: one for each row that is an observation. */
const saidOfFact = (fact: ShelfFact): readonly Said[] => {
  switch (fact.kind) {
    case 'opened': {
      if (!fact.grossWhenNew) return []
      return [{ id: 'weighing_when_new', what: 'the weighing when new', fact: fact.id }]
    }
    case 'weighed':
      return [{ id: 'weighing', what: `the weighing of ${shownOf(fact.reading)} g`, fact: fact.id }]
    case 'carrier-weighed':
      return [{ id: 'empty_carrier', what: 'its empty carrier', fact: fact.id }]
    case 'ran-dry':
      return [{ id: 'ran_dry', what: 'its running dry', fact: fact.id }]
    case 'measured':
      return saidOfMeasured(fact)
    case 'drew':
    case 'trimmed':
    case 'emptied':
    case 'dried':
    case 'moved':
    case 'data-sheet':
      break
  }
  return []
}

const saidOfMeasured = (fact: ReelMeasured): readonly Said[] => {
  const { id: of, linearDensity, density, calipers, cutLength, winding } = fact
  const said: Said[] = []
  if (linearDensity) {
    said.push({ id: 'linear_density', what: 'the linear density given', fact: of })
  }
  if (density) said.push({ id: 'density', what: 'the density given', fact: of })
  if (calipers) {
    const { u } = crossSectionOfPlaces(calipers.places, calipers.caliper ?? benchCaliper)
    said.push({ id: 'calipers', what: 'the caliper readings', fact: of, u })
  }
  if (cutLength) said.push({ id: 'cut_length', what: 'the cut length', fact: of })
  if (winding) said.push({ id: 'winding', what: 'the size of the winding', fact: of })
  return said
}
