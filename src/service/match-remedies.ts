import type { WaitingRowJson } from '../contract/index.ts'
import {
  type Matcher,
  type MatchPlan,
  type MissingFilament,
  type Remedy,
  remediesFor,
} from '../match/index.ts'
import { formatChance } from '../units/index.ts'
import type { MatchQuestion } from './match-question.ts'

/** Most prints for which a remedy is looked for: each is matched anew, several times. */
const mostPrints = 6

/** How remedies are tried. */
interface RemediesTried {
  readonly match: Matcher
  readonly isCancelled: () => boolean
}

/**
 * What would serve copies that are not served, in words, the cheapest first: a planned change, another
 * colour, a measurement, more filament.
 *
 * @param trying - how small slates are tried, and whether the person has had enough: then none is
 */
export const remediesOf = async (
  { slate, copies }: MatchQuestion,
  plan: MatchPlan,
  { match, isCancelled }: RemediesTried,
): Promise<ReadonlyMap<string, readonly string[]>> => {
  const found = new Map<string, readonly string[]>()
  const asked = new Map<string, readonly string[]>()
  const triedFor = async (id: string): Promise<readonly Remedy[]> =>
    isCancelled() ? [] : remediesFor(match, slate, plan, id)
  for (const { copy: id, missing } of plan.unserved) {
    const { row } = copies.get(id)!
    // Copies of one print lack the same.
    const known = asked.get(row.id)
    if (known === undefined && asked.size >= mostPrints) continue
    // oxlint-disable-next-line no-await-in-loop -- one small match after another
    const says = known ?? wordsOf(row, await triedFor(id), missing)
    asked.set(row.id, says)
    found.set(id, says)
  }
  return found
}

const wordsOf = (
  { id: waiting, tools }: WaitingRowJson,
  remedies: readonly Remedy[],
  missing: readonly MissingFilament[],
): readonly string[] => {
  const says = remedies.flatMap((remedy): readonly string[] => {
    if (remedy.kind === 'change') {
      return [
        `Allow ${remedy.most === 1 ? 'a change' : `${remedy.most} changes`} of reels in mid-print: slate change ${waiting} --changes ${remedy.most}. Reels that are there then do it.`,
      ]
    }
    if (remedy.kind === 'any_colour') {
      return [
        `In another colour ${remedy.reels.join(' and ')} ${remedy.reels.length === 1 ? 'does' : 'do'} it.`,
      ]
    }
    if (remedy.kind === 'measure') {
      return [
        `Weigh ${remedy.reel}: that may show that it holds enough. By what is known it does with ${formatChance(remedy.chance)}.`,
      ]
    }
    return []
  })
  const toGet = missing.map(({ tool, needed }) =>
    tools?.find((each) => each.tool === tool)?.reel !== undefined
      ? `Let another reel feed it: slate change ${waiting} --tool 'T${tool}: reel=ID'.`
      : needed === null
        ? 'Get a reel of that material, diameter and colour.'
        : `Get a new reel of it: ${Math.ceil(needed.value + 2 * needed.u)} g are enough.`,
  )
  return [...new Set([...says, ...toGet])]
}
