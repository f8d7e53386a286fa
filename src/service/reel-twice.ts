import type { Refusal } from '../units/index.ts'

/** Why reels can not serve the tools of one print: one of them is to serve two, and would be judged twice over. */
export const reelTwice = (
  reels: readonly { readonly tool: number; readonly reel: string }[],
): Refusal | undefined => {
  const at = new Map<string, number>()
  for (const { tool, reel } of reels) {
    const other = at.get(reel)
    if (other !== undefined) {
      return {
        code: 'reel_twice',
        message: `Reel ${reel} is given to T${other} and to T${tool}: one reel feeds one tool of a print. Give each its own.`,
        received: reel,
      }
    }
    at.set(reel, tool)
  }
  return undefined
}
