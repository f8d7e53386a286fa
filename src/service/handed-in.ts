import type { Store } from '../store/index.ts'

/** What every use case is handed: it reads no clock and no chance by itself. */
export interface HandedIn {
  readonly store: Store
  /** The moment, milliseconds since 1970. */
  readonly now: () => number
  /** Random bytes without end, for ids. */
  readonly randomByte: () => number
  /** Id of the person at the bench, where known. */
  readonly by?: string
}
