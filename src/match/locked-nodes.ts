/** The nodes of a task that is locked to some reels. */
export interface LockedNodes {
  /** Which of the task's own nodes each is: rising, the beginning first and the end last. */
  readonly nodes: readonly number[]
  /** Places of the reels that may serve what lies between two of them. */
  readonly between: (from: number, to: number) => readonly number[]
  /** Places of the reels that may serve the task or a part of it. */
  readonly reels: readonly number[]
}

/**
 * Each reel that a task is locked to feeds one of its parts. So every node but the beginning and the end is
 * there once for each number of them that may have come before it, a locked reel leads from one number to
 * the next, any other stays, and the end is there with all of them only. As one reel feeds no two parts of
 * a print, their number says that each was there. Without locks every node is there once.
 *
 * @param count - nodes of the task, ≥ 2
 * @param locks - places of the reels it is locked to
 * @param allowed - places of the reels that fit it and are not forbidden
 * @param most - parts that it may have, ≥ the number of locks
 */
export const lockedNodes = (
  count: number,
  locks: ReadonlySet<number>,
  allowed: readonly number[],
  most: number,
): LockedNodes => {
  const inner = Array.from({ length: count - 2 }, (_, node) => node + 1)
  const stages = Array.from({ length: locks.size + 1 }, (_, stage) => stage)
  const at = [
    { node: 0, stage: 0 },
    ...inner.flatMap((node) => stages.map((stage) => ({ node, stage }))),
    { node: count - 1, stage: locks.size },
  ]
  const own = allowed.filter((reel) => locks.has(reel))
  const others = allowed.filter((reel) => !locks.has(reel))
  return {
    nodes: at.map(({ node }) => node),
    between: (from, to) => {
      const [begin, end] = [at[from]!, at[to]!]
      if (end.node <= begin.node) return []
      return end.stage === begin.stage ? others : end.stage === begin.stage + 1 ? own : []
    },
    reels: locks.size === most ? own : allowed,
  }
}
