import type { FactCommonJson } from '../contract/index.ts'
import type { HandedIn } from './handed-in.ts'
import { newFactId } from './new-id.ts'

/** What a person says beside the fact itself. */
export interface Said {
  /** Of the fact, or of the first of several; made anew unless given. */
  readonly id?: string
  /** When it happened, UTC to the millisecond; now unless given. */
  readonly at?: string
  readonly note?: string
}

/** What a new fact has in common with all others. */
export const factCommon = (handed: HandedIn, { id, at, note }: Said): FactCommonJson => {
  const recorded_at = new Date(handed.now()).toISOString()
  return {
    id: id ?? newFactId(handed),
    at: at ?? recorded_at,
    recorded_at,
    ...(handed.by !== undefined && { by: handed.by }),
    ...(note !== undefined && { note }),
  }
}
