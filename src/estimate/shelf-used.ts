import { benchCaliper, crossSectionOfPlaces } from '../filament/index.ts'
import { surprise } from './belief-notices.ts'
import { covarianceOf, type LinearForm, marginal } from './joint-normal.ts'
import type { UsedObservation } from './reel-belief.ts'
import { reelChain } from './shelf-chain.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import type { ShelfFact } from './shelf-facts.ts'
import { jointOfReel, type Wanted } from './shelf-joint.ts'
import { shelfNames, wantedOfMake } from './shelf-posterior.ts'
import { type Tape, tapeKinds, tapeWidth } from './shelf-tape.ts'

/** What is said of an observation, in the order in which the tape has its rows. */
type Said = Pick<UsedObservation, 'id' | 'what'> & { readonly fact: string; readonly u?: number }

const netThen = 'net_then'
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
  const { book, point, reelFacts, tapes, blocks } = estimate
  const tape = tapes[reel]!
  const make = book.makeOfReel[reel]!
  const lambda = point.linearDensity[reel]!
  const rows = rowsOf(tape)
  const said = reelFacts[reel]!.flatMap(saidOf)
  const seen = rows.filter(({ kind }) => isSeen(kind))
  const lastChange = rows.findLastIndex(({ kind }) => !isSeen(kind))
  const picked = lastOnly ? seen.filter(({ onNet }) => onNet !== 0).slice(-1) : seen
  // By their place: facts of equal time stand in an order too.
  const inOrder = { ...tape, at: Float64Array.from(rows, (_, i) => i) }
  return picked.map((row) => {
    const { place, column, variance: given } = row
    const isNow = place > lastChange
    const block = isNow ? blocks[reel]! : reelChain(inOrder, book, make, point, lambda, place)
    const joint = jointOfReel(estimate, block, make, [
      { name: shelfNames.tare, state: 0 },
      { name: shelfNames.net, state: 1 },
      { name: shelfNames.linearDensity, state: 2 },
      { name: netThen, state: isNow ? 1 : 3 },
      ...(row.onMake ? wantedOfMake(book.makes[make]!) : []),
      ...(column < 0 ? [] : [{ name: shelfNames.gain, column } satisfies Wanted]),
    ])
    const variance = row.kind === tapeKinds.ranDry ? lambda ** 2 * given : given
    const { value, u } = marginal(joint, row.form)
    const rest = Math.max(variance - u ** 2, Number.EPSILON * variance)
    const weightOn = (form: LinearForm): number => {
      const taken = covarianceOf(joint, form, row.form) ** 2 / rest
      const left = marginal(joint, form).u ** 2
      return taken === 0 ? 0 : taken / (left + taken)
    }
    const off = (row.value - value) / Math.sqrt(rest)
    const { id, what, fact, u: own = Math.sqrt(variance) } = said[seen.indexOf(row)]!
    const repeats = id === 'weighing' && isNow && (scale === undefined || row.on(book) === scale)
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

interface Row {
  /** Place on the tape. */
  readonly place: number
  readonly kind: number
  /** Core column of the gain, or −1. */
  readonly column: number
  readonly value: number
  readonly variance: number
  readonly form: LinearForm
  readonly onNet: number
  /** True where means of the make are in the form. */
  readonly onMake: boolean
  /** Id of the scale. */
  readonly on: (book: ShelfEstimate['book']) => string | undefined
}

const isSeen = (kind: number): boolean => kind === tapeKinds.seen || kind === tapeKinds.ranDry

const rowsOf = ({ kind, who, numbers }: Tape): readonly Row[] => {
  let from = 0
  return Array.from(kind, (each, place): Row => {
    const part = numbers.subarray(from, (from += tapeWidth(each)))
    const [first = 0, variance = 0, tare = 0, net = 0, linear = 0, meanTare = 0, density = 0] = part
    const gain = part[7] ?? 0
    const column = isSeen(each) ? who[place]! : -1
    const dry = each === tapeKinds.ranDry
    return {
      place,
      kind: each,
      column,
      value: dry ? 0 : first,
      variance,
      form: dry
        ? { terms: { [netThen]: 1, [shelfNames.linearDensity]: -first } }
        : {
            terms: {
              [shelfNames.tare]: tare,
              [netThen]: net,
              [shelfNames.linearDensity]: linear,
              ...(meanTare !== 0 && { [shelfNames.makeTare]: meanTare }),
              ...(density !== 0 && { [shelfNames.makeDensity]: density }),
              ...(column >= 0 && { [shelfNames.gain]: gain }),
            },
          },
      onNet: dry ? 1 : net,
      onMake: meanTare !== 0 || density !== 0,
      on: ({ catalogue, printers }) => catalogue.scales[column - 2 * printers.length]?.id,
    }
  })
}

/** As `TapeWriter` writes: one for each row that is an observation. */
const saidOf = (fact: ShelfFact): readonly Said[] => {
  const saying = (id: string, what: string): Said => ({ id, what, fact: fact.id })
  switch (fact.kind) {
    case 'opened':
      return fact.grossWhenNew ? [saying('weighing_when_new', 'the weighing when new')] : []
    case 'weighed':
      return [saying('weighing', `the weighing of ${fact.reading} g`)]
    case 'carrier-weighed':
      return [saying('empty_carrier', 'its empty carrier')]
    case 'ran-dry':
      return [saying('ran_dry', 'its running dry')]
    case 'measured': {
      const { linearDensity, density, calipers, cutLength } = fact
      const said: Said[] = []
      if (linearDensity) said.push(saying('linear_density', 'the linear density given'))
      if (density) said.push(saying('density', 'the density given'))
      if (calipers) {
        const { u } = crossSectionOfPlaces(calipers.places, calipers.caliper ?? benchCaliper)
        said.push({ ...saying('calipers', 'the caliper readings'), u })
      }
      if (cutLength) said.push(saying('cut_length', 'the cut length'))
      return said
    }
    case 'drew':
    case 'trimmed':
    case 'data-sheet':
      break
  }
  return []
}
