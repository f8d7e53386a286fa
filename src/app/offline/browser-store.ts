import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { SurpriseJson, WeighRequest } from '../../contract/index.ts'

/** A weighing that the server does not have yet. */
export interface WaitingWeighing {
  /** Of the fact: sent as often as it takes, it is counted once. */
  readonly id: string
  /** When it was typed, ISO 8601. */
  readonly at: string
  readonly told: WeighRequest
  /** Id of the ledger it was made for: it is sent to no other unless a person says so. */
  readonly ledger: string
  /** Why it was not taken when it was sent: a person has to look. */
  readonly asks?: { readonly message: string; readonly surprise?: SurpriseJson }
}

/** What the app keeps in this browser. */
interface Kept extends DBSchema {
  readonly waiting: { readonly key: string; readonly value: WaitingWeighing }
  /** What the server answered last, by the path asked. */
  readonly answers: { readonly key: string; readonly value: unknown }
}

let opening: Promise<IDBPDatabase<Kept>> | null = null

/**
 * The browser's own store of this app. One that could not be opened, or was taken away, is opened anew
 * the next time.
 */
export function browserStore(): Promise<IDBPDatabase<Kept>> {
  const forget = (): void => {
    opening = null
  }
  if (opening === null) {
    opening = openDB<Kept>('reelreckon', 1, {
      upgrade: (db) => {
        db.createObjectStore('waiting', { keyPath: 'id' })
        db.createObjectStore('answers')
      },
      terminated: forget,
    })
    opening.catch(forget)
  }
  return opening
}
