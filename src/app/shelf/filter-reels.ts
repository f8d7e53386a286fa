import type { ListedReelJson } from '../../contract/index.ts'

/** Everything that a reel can be found by, in lower case. */
export const wordsOf = ({ reel }: Pick<ListedReelJson, 'reel'>): string =>
  [
    reel.id,
    reel.make,
    reel.material,
    reel.material_name,
    reel.colour,
    reel.lot,
    reel.place,
    reel.state,
  ]
    .filter((part) => part !== null)
    .join(' ')
    .toLowerCase()

/**
 * Reels in which every word typed occurs, in the order given.
 *
 * @param haystacks - `wordsOf` each reel, kept by the caller from key to key
 */
export function filterReels<T extends Pick<ListedReelJson, 'reel'>>(
  reels: readonly T[],
  haystacks: readonly string[],
  typed: string,
): readonly T[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  return reels.filter((_, k) => words.every((word) => haystacks[k]?.includes(word)))
}
