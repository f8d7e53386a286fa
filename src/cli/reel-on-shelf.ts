import type { ReelBelieved, WeighingNow } from '../service/index.ts'

/** What the shelf has on a reel in question. */
export interface ReelOnShelf extends Omit<ReelBelieved, 'belief'> {
  /** Told now, and not written down. */
  readonly weighing?: WeighingNow
  /** Milliseconds since 1970. */
  readonly now: number
}
