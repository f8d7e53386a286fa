import type { ReactNode } from 'react'
import type { EventToldJson } from '../../contract/index.ts'

/** What is being told of a reel. */
export interface Befalling {
  readonly fields: ReactNode
  /** Null while something is missing. */
  readonly event: EventToldJson | null
  /** What is still to be told, where something is. */
  readonly missing: string | null
}
