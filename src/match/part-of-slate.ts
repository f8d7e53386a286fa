import { compileSlate } from './compiled-slate.ts'
import type { MatchSlate } from './slate.ts'
import { slateParts } from './slate-parts.ts'

/**
 * The part of a slate that has to do with a copy, as a slate of its own: what is asked about one copy need
 * not be solved for all.
 *
 * @throws DomainError as `compileSlate`
 */
export const partOfSlate = (slate: MatchSlate, copy: string): MatchSlate => {
  const compiled = compileSlate(slate)
  const place = compiled.copies.findIndex(({ id }) => id === copy)
  const part = slateParts(compiled).find(({ copies }) => copies.includes(place))
  if (!part) return { ...slate, copies: [] }
  const copies = part.copies.map((each) => slate.copies[each]!)
  const hasCopy = new Set(copies.map(({ id }) => id))
  const locks = (slate.locks ?? []).filter((lock) => hasCopy.has(lock.copy))
  // A lock holds as well where its reel may serve nothing: then its copy is served by none.
  const locked = new Set(locks.map(({ reel }) => reel))
  const reels = slate.reels.filter(({ id }, reel) => part.reels.includes(reel) || locked.has(id))
  const hasReel = new Set(reels.map(({ id }) => id))
  return {
    ...slate,
    // A lock may have left a reel out of the part that another colour rule would bring in.
    copies: copies.map((each) => withFits(each, hasReel)),
    reels,
    locks,
    barred: (slate.barred ?? []).filter(
      (bar) => hasReel.has(bar.reel) && (bar.copy === undefined || hasCopy.has(bar.copy)),
    ),
  }
}

const withFits = (
  copy: MatchSlate['copies'][number],
  reels: ReadonlySet<string>,
): MatchSlate['copies'][number] => ({
  ...copy,
  tasks: copy.tasks.map(({ tool, draw, fits, inAnyColour }) => ({
    tool,
    draw,
    fits: fits.filter((reel) => reels.has(reel)),
    ...(inAnyColour && { inAnyColour }),
  })),
})
