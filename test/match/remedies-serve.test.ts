import { describe, expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import {
  type MatchCopy,
  type Matcher,
  type MatchPlan,
  type MatchSlate,
  matchSlate,
  type OfferedReel,
  type Remedy,
  remediesFor,
} from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { randomSlate } from './random-slate.ts'
import { layered, reelOf } from './told-slate.ts'

const solver = highsSolver()
const match: Matcher = (slate) => matchSlate(slate, { solver })

/** A random slate in which a person has wished for much, or some prints are too large for any one reel. */
const wishfulSlate = (random: SeededRandom): MatchSlate => {
  const slate = randomSlate(random)
  const chance = (share: number): boolean => random.uniform() < share
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random.uniform() * list.length)]!
  const ids = slate.reels.map(({ id }) => id)
  const isWished = chance(0.6)
  const changed = slate.copies.map((copy): MatchCopy => {
    const isLarge = !isWished && chance(0.5)
    const tasks = copy.tasks.map((task) => ({
      ...task,
      ...(isLarge && { draw: [layered(random.between(150, 300), 6)] }),
      fits: task.fits.filter(() => chance(0.7)),
      ...(chance(0.5) && { inAnyColour: ids }),
    }))
    return { ...copy, tasks }
  })
  // The last is the first once more, where it is its copy.
  const copies = changed.map((copy) =>
    copy.id === 'again' ? Object.assign({}, changed[0]!, { id: copy.id }) : copy,
  )
  return {
    ...slate,
    copies,
    locks: copies.flatMap(({ id, tasks }) =>
      tasks.flatMap(({ tool, fits }) =>
        fits.length > 0 && isWished && chance(0.4) ? [{ copy: id, tool, reel: pick(fits) }] : [],
      ),
    ),
    barred: ids.flatMap((reel) =>
      isWished && chance(0.3) ? [chance(0.5) ? { reel } : { reel, copy: pick(copies).id }] : [],
    ),
  }
}

/** What a person would ask who takes the remedy, of the whole slate. */
const withRemedy = (
  slate: MatchSlate,
  print: readonly string[],
  offers: readonly OfferedReel[],
  remedy: Remedy,
): MatchSlate => {
  const changed = (how: (copy: MatchCopy) => MatchCopy): MatchSlate => ({
    ...slate,
    copies: slate.copies.map((copy) => (print.includes(copy.id) ? how(copy) : copy)),
  })
  const withFits = (more: (tool: number) => readonly string[]): MatchSlate =>
    changed((copy) => ({
      ...copy,
      tasks: copy.tasks.map((task) => ({
        ...task,
        fits: [...new Set([...task.fits, ...more(task.tool)])],
      })),
    }))
  if (remedy.kind === 'let_go') {
    const { locks, bars } = remedy
    return {
      ...slate,
      locks: slate.locks!.filter((lock) => !locks.includes(lock)),
      barred: slate.barred!.filter((bar) => !bars.includes(bar)),
    }
  }
  if (remedy.kind === 'change') {
    return changed((copy) => ({ ...copy, changes: { ...copy.changes, most: remedy.most } }))
  }
  if (remedy.kind === 'any_colour') {
    return withFits((tool) =>
      remedy.reels.filter((each) => each.tool === tool).map(({ reel }) => reel),
    )
  }
  if (remedy.kind === 'new_reel') {
    const { reel, tools } = offers.find((each) => each.reel.id === remedy.reel)!
    const more = withFits((tool) => (tools.includes(tool) ? [reel.id] : []))
    return { ...more, reels: [...slate.reels, reel] }
  }
  throw new Error('a measurement changes nothing of the slate')
}

const seeds = Number(process.env['REMEDY_SEEDS'] ?? 25)

describe('every remedy that is told serves when it is taken', () => {
  const told = new Map<string, number>()
  const sures: boolean[] = []
  it.each(Array.from({ length: seeds }, (_, i) => 70_000 + i))('slate %i', async (seed) => {
    const slate = wishfulSlate(new SeededRandom(seed))
    const plan = await match(slate)
    for (const { copy } of plan.unserved) {
      // Copies of one print are those of the same name: `again` is the first once more.
      const print = copy === 'again' || copy === 'copy 0' ? ['copy 0', 'again'] : [copy]
      const tools = slate.copies.find(({ id }) => id === copy)!.tasks.map(({ tool }) => tool)
      const offers = [{ reel: reelOf('had', 800, { sealed: true }), tools }]
      const remedies = remediesFor(slate, plan, copy, { print, offers })
      for (const remedy of remedies) {
        if (remedy.kind === 'measure') continue
        told.set(remedy.kind, (told.get(remedy.kind) ?? 0) + 1)
        // oxlint-disable-next-line no-await-in-loop -- one after the other
        const after = await match(withRemedy(slate, print, offers, remedy))
        const { importance = 0 } = slate.copies.find(({ id }) => id === copy)!
        const asImportant = slate.copies.filter((each) => (each.importance ?? 0) >= importance)
        // Where it is not sure another as important may have the reel.
        const who = remedy.sure ? print : asImportant.map(({ id }) => id)
        const count = (of: MatchPlan): number =>
          of.served.filter((each) => who.includes(each.copy)).length
        expect(count(after) - count(plan), `${copy} ${remedy.kind}`).toBeGreaterThanOrEqual(
          remedy.sure ? remedy.more : 1,
        )
        sures.push(remedy.sure)
      }
    }
  })
  it('and there were some of each kind', () => {
    expect([...told.keys()].toSorted()).toEqual(['any_colour', 'change', 'let_go', 'new_reel'])
    expect(sures.filter(Boolean).length).toBeGreaterThan(sures.length / 2)
  })
})
