import type { SeededRandom } from '../../demo/seeded-random.ts'
import type { Choice } from '../../src/match/choice.ts'
import type { CompiledCopy, CompiledSlate } from '../../src/match/compiled-slate.ts'
import type { MatchLock, MatchSlate } from '../../src/match/index.ts'

/** A slate that is locked here and there, as far as there is room for it. */
export const lockedSlate = (slate: MatchSlate, random: SeededRandom): MatchSlate => {
  const locks = slate.copies.flatMap(({ id, tasks, changes }): readonly MatchLock[] =>
    tasks.flatMap(({ tool, fits }) => {
      const room = changes ? (changes.most ?? 1) + 1 : 1
      const some = random.uniform() < 0.5 ? fits.slice(0, 1 + Math.floor(2 * random.uniform())) : []
      return some.slice(0, room).map((reel) => ({ copy: id, tool, reel }))
    }),
  )
  return { ...slate, locks }
}

/** Whether a copy is served by every reel that it is locked to. */
export const keepsLocks =
  (locks: readonly MatchLock[]) =>
  ({ servings }: Choice, { id, tasks }: CompiledCopy, { reels }: CompiledSlate): boolean =>
    locks
      .filter(({ copy }) => copy === id)
      .every(({ tool, reel }) => {
        const { place, mostChanges } = tasks.find((task) => task.tool === tool)!
        const own = servings.filter(({ piece }) => piece.task === place)
        const ids = own.map((one) => reels[one.reel]!.id)
        return ids.includes(reel) && (mostChanges > 0 || ids.length === 1)
      })
