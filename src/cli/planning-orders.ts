import type { MotionOptions, TapeThing } from '../print/index.ts'

/** Numbers that both threads see: how many tapes are played, how many prints finished, whether it failed. */
export const planningState = { played: 0, finished: 1, failed: 2 } as const

/** What the thread is told: a print begins, a tape is to be played, the print ends. */
export type PlanningOrder =
  | { readonly begin: MotionOptions }
  | { readonly block: number; readonly length: number; readonly things: readonly TapeThing[] }
  | { readonly end: true }
