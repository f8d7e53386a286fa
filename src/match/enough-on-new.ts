import type { WorkBelief } from '../estimate/index.ts'
import { compileSlate } from './compiled-slate.ts'
import { loadJudge } from './load-judge.ts'
import type { MatchCopy, MatchSlate } from './slate.ts'

/** Labels tried at most: each is nearer, and what a label leaves open grows slowly with it. */
const mostTried = 40

/**
 * What a label has to say for a new reel to be safe for one whole tool of a copy and nothing else, whichever
 * of its printers does it.
 *
 * @param newReel - the belief of a reel with such a label, g > 0
 * @returns whole g; null where no label is enough
 * @throws DomainError as `compileSlate`; `unknown_id` for a copy or a tool that is not there
 */
export const enoughOnNew = (
  slate: MatchSlate,
  copy: string,
  tool: number,
  newReel: (label_g: number) => WorkBelief,
): number | null => {
  const copies = slate.copies
    .filter(({ id }) => id === copy)
    .map(
      (each): MatchCopy =>
        Object.assign({}, each, {
          tasks: each.tasks.map((task) =>
            Object.assign({}, task, { fits: task.tool === tool ? ['new'] : [] }),
          ),
        }),
    )
  // What runs is of other reels, and what was wished is of this shelf.
  const asked: MatchSlate = { ...slate, locks: [], barred: [], earlier: [] }
  let label = 1
  for (let i = 0; i < mostTried; i++) {
    const reels = [{ id: 'new', belief: newReel(label), sealed: true }]
    const compiled = compileSlate({ ...asked, copies, reels })
    const judge = loadJudge(compiled, 0)
    const task = compiled.tasks.find((each) => each.tool === tool)!
    const short = Math.max(...[...task.whole.values()].map((piece) => judge.short([piece])))
    if (short === 0) return label
    if (!Number.isFinite(short)) return null
    label = Math.ceil(label + short)
  }
  return null
}
