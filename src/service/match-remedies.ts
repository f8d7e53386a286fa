import { type MatchCopy, type MatchPlan, type MatchSlate, matchSlate } from '../match/index.ts'
import type { MatchQuestion } from './match-question.ts'

/** Most copies for which a remedy is looked for: each is matched anew, several times. */
const mostCopies = 6

/**
 * What would serve copies that are not served, the cheapest first: a planned change, another colour, more
 * filament. A change or colour is told only where a plan with it was found that serves the copy and
 * everything that was served before.
 */
export const remediesOf = async (
  { slate, copies }: MatchQuestion,
  plan: MatchPlan,
): Promise<ReadonlyMap<string, readonly string[]>> => {
  const found = new Map<string, readonly string[]>()
  const kinds = new Map<string, string>()
  for (const { copy: id, missing } of plan.unserved) {
    const { row } = copies.get(id)!
    const first = kinds.get(row.id)
    // Copies of one print lack the same.
    if (first !== undefined) {
      found.set(id, found.get(first)!)
      continue
    }
    if (kinds.size >= mostCopies) continue
    kinds.set(row.id, id)
    const copy = slate.copies.find((each) => each.id === id)!
    const says: string[] = []
    const kept = plan.served.map((each) => each.copy)
    // oxlint-disable-next-line no-await-in-loop -- one small match after another
    const serves = (changed: MatchCopy): Promise<boolean> => isServed(slate, changed, kept)
    const most = copy.changes?.most ?? 0
    const layers = copies.get(id)!.print.layers.count
    if (most < 2 && layers > 2) {
      const changes = { ...copy.changes, most: most + 1 }
      // oxlint-disable-next-line no-await-in-loop -- as above
      if (await serves({ ...copy, changes })) {
        says.push(
          `Allow a change of reels in mid-print: slate change ${row.id} --changes ${most + 1}. Reels that are there then do it.`,
        )
      }
    }
    const anyColour = {
      ...copy,
      // oxlint-disable-next-line oxc/no-map-spread -- what was asked stays as it is
      tasks: copy.tasks.map((task) => ({ ...task, fits: task.inAnyColour ?? task.fits })),
    }
    // oxlint-disable-next-line no-await-in-loop -- as above
    if (await serves(anyColour)) says.push('In another colour a reel that is there does it.')
    for (const { needed, nearest } of missing) {
      if (needed === null) says.push('Get a reel of that material, diameter and colour.')
      else if (isClose(plan, nearest, needed.value)) {
        says.unshift(
          `Weigh ${nearest}: it may well hold enough, and nobody knows well what is on it.`,
        )
      }
      if (needed !== null) {
        says.push(`Get a new reel of it: ${Math.ceil(needed.value + 2 * needed.u)} g are enough.`)
      }
    }
    found.set(id, [...new Set(says)])
  }
  return found
}

/** Whether a reel may hold enough beside what it is asked to do, as far as is known: within one deviation. */
const isClose = ({ reels }: MatchPlan, nearest: string | null, needed: number): boolean => {
  const left = reels.find(({ reel }) => reel === nearest)?.left
  return left !== undefined && left.value + left.u > needed
}

const isServed = async (
  slate: MatchSlate,
  changed: MatchCopy,
  kept: readonly string[],
): Promise<boolean> => {
  const other = await matchSlate({
    ...slate,
    copies: slate.copies.map((copy) => (copy.id === changed.id ? changed : copy)),
  })
  const served = new Set(other.served.map(({ copy }) => copy))
  return served.has(changed.id) && kept.every((copy) => served.has(copy))
}
