import type { ListedReelJson } from '../../contract/index.ts'
import { keep, kept } from '../look/kept.ts'

const name = 'bench-reels'
const most = 6

const keptIds = (): readonly string[] => (kept(name) ?? '').split(' ').filter(Boolean)

/** Keeps that a reel was weighed in this browser. */
export const keepRecent = (id: string): void =>
  keep(name, [id, ...keptIds().filter((one) => one !== id)].slice(0, most).join(' '))

/** Those weighed in this browser first, then those weighed last anywhere. */
export function recentFirst(reels: readonly ListedReelJson[]): readonly ListedReelJson[] {
  const here = keptIds()
  const place = (id: string): number => {
    const at = here.indexOf(id)
    return at < 0 ? most : at
  }
  return reels.toSorted(
    (a, b) =>
      place(a.reel.id) - place(b.reel.id) ||
      (b.weighed_at ?? '').localeCompare(a.weighed_at ?? '') ||
      a.reel.id.localeCompare(b.reel.id),
  )
}
