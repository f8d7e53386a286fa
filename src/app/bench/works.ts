import type { ReactNode } from 'react'

/** One kind of bench work, with its form. */
export interface BenchWork {
  /** As in `/bench?measure=…`. */
  readonly id: string
  readonly name: string
  /** In a few words. */
  readonly what: string
  /** @param reel - id of the reel that it begins with */
  readonly Form: (props: { readonly reel: string | null }) => ReactNode
}

/** All bench work beside weighing reels, as it is offered. */
export const benchWorks: readonly BenchWork[] = []
