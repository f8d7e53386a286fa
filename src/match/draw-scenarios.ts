import type { Piece } from './compiled-slate.ts'

/** One way in which all files of a load may be read together. */
export interface DrawScenario {
  /** Adds up to 1 over the scenarios. */
  readonly weight: number
  /** Draw of each piece, mm, in their order. */
  readonly lengths: readonly number[]
}

/**
 * How the readings of several files go together. Where a file is read in one way only there is one
 * scenario. Where nobody has said which firmware family runs a printer, files are taken to be long
 * together and short together: of all ways in which they may hang together this leaves the widest
 * spread of their sum, so it never makes a load look safer than it is.
 *
 * @param pieces - weights of each add up to 1
 * @see J. Dhaene et al., Insurance: Mathematics and Economics 31 (2002) 3–33: the comonotonic sum is
 *   the largest in convex order (from memory)
 */
export const drawScenarios = (pieces: readonly Piece[]): readonly DrawScenario[] => {
  if (pieces.every(({ lengths }) => lengths.length === 1)) {
    return [{ weight: 1, lengths: pieces.map(({ lengths }) => lengths[0]!.length_mm) }]
  }
  const ranked = pieces.map(({ lengths }) => lengths.toSorted((a, b) => b.length_mm - a.length_mm))
  const at = ranked.map(() => 0)
  const upTo = ranked.map((list) => list[0]!.weight)
  const scenarios: DrawScenario[] = []
  let done = 0
  while (done < 1 - rounding) {
    const next = Math.min(1, ...upTo)
    const lengths = ranked.map((list, i) => list[at[i]!]!.length_mm)
    if (next - done > rounding) scenarios.push({ weight: next - done, lengths })
    for (const [i, list] of ranked.entries()) {
      if (upTo[i]! > next + rounding) continue
      if (at[i]! + 1 < list.length) upTo[i]! += list[++at[i]!]!.weight
      else upTo[i] = Infinity
    }
    done = next
  }
  return scenarios
}

/** Weights that are sums of thirds do not quite meet. */
const rounding = 1e-12
