import {
  type CatalogueRowJson,
  type FactJson,
  type PutRightJson,
  showId,
  type WeighingJson,
} from '../contract/index.ts'
import {
  accept,
  formatCount,
  formatIsoDay,
  type Outcome,
  type Refusal,
  refuse,
} from '../units/index.ts'
import { type Catalogue, catalogueOf } from './catalogue.ts'
import { type FactBounds, factBounds } from './fact-bounds.ts'
import { clocksApart, inTheFuture } from './in-the-future.ts'
import { type ReelHistory, reelHistories, reelOfFact, type StandingFact } from './reel-histories.ts'
import { unknownIn } from './shelf-of.ts'
import { standingFacts } from './standing-facts.ts'

/**
 * What the estimate, or the sense of it, would refuse of a fact that is about to be written down.
 * It says nothing of surprise: that is for `weighingSurprise`.
 *
 * @param facts - the ledger, in the order written down
 * @param together - facts to be written down with it in one go, itself among them or not: a `put-right`
 *   and the fact that holds instead are each checked with the other
 * @returns the fact as it came; refusals `make_unknown`, `printer_unknown`, `scale_unknown`,
 *   `person_unknown`, `in_the_future`, `before_opened`, `reel_not_opened`, `reel_opened_already`, `reel_retired`,
 *   `reel_empty`, `fed_after`, `weighing_below_extra`, `gross_below_label`, `share_above_one`,
 *   `not_lighter_in_water`, `winding_below_hub`, `impossible_fact`, `fact_unknown`, `fact_void`,
 *   `opened_needed`, `instead_differs`
 */
export const checkNewFact = <F extends FactJson>(
  fact: F,
  rows: Iterable<CatalogueRowJson>,
  facts: readonly FactJson[],
  together: readonly FactJson[] = [],
): Outcome<F> => {
  const others = [...facts, ...together.filter(({ id }) => id !== fact.id)]
  const found = problems(fact, catalogueOf(rows), others).next()
  return found.done === true ? accept(fact) : refuse(found.value)
}

function* problems(
  fact: FactJson,
  catalogue: Catalogue,
  others: readonly FactJson[],
): Generator<Refusal, void> {
  const early = inTheFuture(fact)
  if (early !== undefined) yield early
  if (fact.by !== undefined && !catalogue.people.has(fact.by)) {
    yield {
      code: 'person_unknown',
      message: `There is no person ${showId(fact.by)}. Write down who they are first.`,
      received: fact.by,
    }
  }
  if (fact.kind === 'put-right') {
    yield* putRightProblems(fact, others)
    return
  }
  yield* unknownProblems(fact, catalogue)
  yield* partProblems(fact)
  yield* reelProblems(fact, others)
}

function* unknownProblems(fact: StandingFact, catalogue: Catalogue): Generator<Refusal, void> {
  const unknown = unknownIn(fact, catalogue)
  if (unknown === undefined) return
  const kind = /^There is no (\w+)/.exec(unknown)?.[1] ?? 'row'
  yield { code: `${kind}_unknown`, message: `${unknown} Write it down in the catalogue first.` }
}

function* reelProblems(fact: StandingFact, others: readonly FactJson[]): Generator<Refusal, void> {
  const reel = reelOfFact(fact)
  if (reel === undefined) return
  const history = reelHistories(standingFacts(others)).reels.get(reel)
  if (fact.kind === 'opened') {
    if (history === undefined) return
    yield {
      code: 'reel_opened_already',
      message: `Reel ${showId(reel)} was opened already, on ${formatIsoDay(history.opened.at)}. Put that fact right, or give the new reel an id of its own.`,
      received: reel,
    }
    return
  }
  if (history === undefined) {
    yield {
      code: 'reel_not_opened',
      message: `There is no reel ${showId(reel)} on the shelf. Open it first, or look at its id again.`,
      received: reel,
    }
    return
  }
  const { opened } = history
  if (Date.parse(fact.at) < Date.parse(opened.at) - clocksApart) {
    yield {
      code: 'before_opened',
      message: `Reel ${showId(reel)} was opened on ${formatIsoDay(opened.at)}, so nothing can have happened to it on ${formatIsoDay(fact.at)}. Check the date and the id, or put its opening right first: it is the fact ${showId(opened.id)}.`,
      expected: `${formatIsoDay(opened.at)} or after`,
      received: fact.at,
    }
  }
  yield* endedProblems(fact, reel, history)
}

/** What may still be said of a reel that has nothing on it. */
const ofEmpty: ReadonlySet<StandingFact['kind']> = new Set([
  'weighed',
  'carrier-weighed',
  'measured',
  'moved',
  'retired',
])

function* endedProblems(
  fact: StandingFact,
  reel: string,
  { facts }: ReelHistory,
): Generator<Refusal, void> {
  const before = facts.filter(({ at }) => at <= fact.at)
  const gone = before.find(({ kind }) => kind === 'retired')
  if (gone !== undefined) {
    yield {
      code: 'reel_retired',
      message: `Reel ${showId(reel)} left the shelf on ${formatIsoDay(gone.at)}. Put that fact right if it is still here.`,
      received: reel,
    }
  }
  if (fact.kind === 'emptied' || fact.kind === 'ran-dry') {
    const fed = facts.find(({ kind, at }) => kind === 'drew' && at > fact.at)
    if (fed !== undefined) {
      yield {
        code: 'fed_after',
        message: `Reel ${showId(reel)} fed a print on ${formatIsoDay(fed.at)}, after it is said to have ended. Check the date, or put that fact right first.`,
        received: fact.at,
      }
    }
  }
  if (ofEmpty.has(fact.kind)) return
  const end = before.find(({ kind }) => kind === 'emptied' || kind === 'ran-dry')
  // What is left after running dry may still be taken off.
  const tailTaken = end?.kind === 'ran-dry' && (fact.kind === 'emptied' || fact.kind === 'trimmed')
  if (end === undefined || tailTaken) return
  yield {
    code: 'reel_empty',
    message: `Reel ${showId(reel)} ${end.kind === 'emptied' ? 'was emptied' : 'ran dry'} on ${formatIsoDay(end.at)}, so nothing more can come from it. Put that fact right first, or look at the id again.`,
    received: reel,
  }
}

function* partProblems(fact: StandingFact): Generator<Refusal, void> {
  switch (fact.kind) {
    case 'opened':
      yield* within('A net mass on a label', fact.label_net_g, factBounds.label_net_g)
      yield* weighingProblems(fact.gross_when_new)
      if (
        fact.gross_when_new !== undefined &&
        fact.gross_when_new.reading_g < 0.9 * (fact.label_net_g ?? 0)
      ) {
        yield {
          code: 'gross_below_label',
          message: `A new reel with its carrier can not show ${fact.gross_when_new.reading_g} g where its label says ${fact.label_net_g} g of filament. Check the unit, or leave the weighing out.`,
        }
      }
      return
    case 'carrier-weighed':
      yield* within('A net mass on a label', fact.label_net_g, factBounds.label_net_g)
      yield* weighingProblems(fact.weighing)
      return
    case 'weighed':
      yield* weighingProblems(fact.weighing)
      return
    case 'drew':
      yield* within('A draw', fact.length_mm, factBounds.length_mm)
      for (const part of [fact.share?.value, fact.stopped_at?.share]) {
        if (part === undefined || (part >= 0 && part <= 1)) continue
        yield {
          code: 'share_above_one',
          message: `A print can not feed ${part} of its draw. Give a share from 0 to 1.`,
          expected: '0 to 1',
          received: String(part),
        }
      }
      return
    case 'measured': {
      const { calipers, cut, immersion, winding } = fact
      for (const diameter of calipers?.places_mm.flat() ?? []) {
        yield* within('A diameter', diameter, factBounds.diameter_mm)
      }
      yield* weighingProblems(cut?.weighing)
      if (immersion && !(immersion.in_water_g.value < immersion.in_air_g.value)) {
        yield {
          code: 'not_lighter_in_water',
          message: `A piece of ${immersion.in_air_g.value} g in air can not weigh ${immersion.in_water_g.value} g in water. Are the two exchanged?`,
        }
      }
      if (winding && !(winding.outer_mm.value > winding.hub_mm.value)) {
        yield {
          code: 'winding_below_hub',
          message: `A winding of ${winding.outer_mm.value} mm is no wider than its hub of ${winding.hub_mm.value} mm. Are the two exchanged?`,
        }
      }
      yield* within('A density', fact.density_g_per_cm3?.value, factBounds.density)
      yield* within('A linear density', fact.linear_density_g_per_m?.value, factBounds.linear)
      return
    }
    case 'data-sheet':
      yield* within('A density', fact.density_g_per_cm3?.value, factBounds.density)
      yield* within('A tare', fact.tare_g?.value, factBounds.reading_g)
      return
    case 'trimmed':
      yield* within('What was trimmed', fact.mass_g?.value, factBounds.reading_g)
      yield* within('What was trimmed', fact.length_mm?.value, factBounds.length_mm)
      return
    case 'ran-dry':
      yield* within('A tail', fact.tail_mm?.value, factBounds.path_mm)
      return
    case 'dried':
      yield* within('Water left', fact.remaining_share?.value, factBounds.water)
      return
    case 'emptied':
    case 'moved':
    case 'retired':
  }
}

function* within(
  what: string,
  value: number | undefined,
  [low, high, unit]: FactBounds,
): Generator<Refusal, void> {
  if (value === undefined || (value >= low && value <= high)) return
  yield {
    code: 'impossible_fact',
    message: `${what} can not be ${value} ${unit}: expected ${low} to ${high} ${unit}. Check the unit.`,
    expected: `${low} to ${high} ${unit}`,
    received: `${value} ${unit}`,
  }
}

function* weighingProblems(seen: WeighingJson | undefined): Generator<Refusal, void> {
  if (seen === undefined) return
  const { reading_g, extra_g } = seen
  yield* within('A reading', reading_g, factBounds.reading_g)
  yield* within('What else stood on the scale', extra_g?.value, factBounds.reading_g)
  if (reading_g > (extra_g?.value ?? 0)) return
  yield {
    code: 'weighing_below_extra',
    message:
      extra_g === undefined
        ? `A scale that shows ${reading_g} g has nothing on it. Weigh again.`
        : `The scale showed ${reading_g} g, which is no more than the ${extra_g.value} g of what else was on it. Check both.`,
    received: `${reading_g} g`,
  }
}

function* putRightProblems(
  fact: PutRightJson,
  others: readonly FactJson[],
): Generator<Refusal, void> {
  const target = others.find(({ id }) => id === fact.voids)
  if (target === undefined) {
    yield {
      code: 'fact_unknown',
      message: `There is no fact ${showId(fact.voids)} to put right. Look at its id again.`,
      received: fact.voids,
    }
    return
  }
  const standing = standingFacts(others)
  const voider = standing.voided.get(target.id)
  if (voider !== undefined) {
    yield {
      code: 'fact_void',
      message: `Fact ${showId(target.id)} was put right already, by fact ${showId(voider.id)}: ${voider.reason}. To bring it back, put that one right.`,
      received: target.id,
    }
  }
  yield* insteadProblems(fact, target, others)
  if (target.kind !== 'opened') return
  const facts = reelHistories(standing).reels.get(target.reel)?.facts ?? []
  const stays = reelHistories(standingFacts([...others, fact])).reels.has(target.reel)
  if (stays || facts.length < 2) return
  yield {
    code: 'opened_needed',
    message: `Reel ${showId(target.reel)} has ${formatCount(facts.length - 1, 'more fact that hangs', 'more facts that hang')} on its opening. Give the opening that holds instead, or put right first what hangs on it.`,
    received: target.id,
  }
}

function* insteadProblems(
  { instead }: PutRightJson,
  target: FactJson,
  others: readonly FactJson[],
): Generator<Refusal, void> {
  if (instead === undefined) return
  const found = others.find(({ id }) => id === instead)
  if (found === undefined) {
    yield {
      code: 'fact_unknown',
      message: `There is no fact ${showId(instead)} to hold instead. Write it down together with this one.`,
      received: instead,
    }
    return
  }
  // A weighing may turn out to be that of a carrier, or of another reel; an opening stays one.
  const fits =
    target.kind === 'opened'
      ? found.kind === 'opened' && found.reel === target.reel
      : found.kind !== 'put-right'
  if (fits && found.id !== target.id) return
  yield {
    code: 'instead_differs',
    message:
      target.kind === 'opened'
        ? `Fact ${showId(instead)} can not hold instead of the opening of reel ${showId(target.reel)}: it has to be an opening of the same reel.`
        : `Fact ${showId(instead)} can not hold instead of fact ${showId(target.id)}: give another fact that is no put-right itself.`,
    received: instead,
  }
}
