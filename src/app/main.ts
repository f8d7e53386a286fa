import type { Api } from './api/api.ts'
import { beginApp } from './begin-app.tsx'

const alone = (): Promise<never> =>
  Promise.reject(new Error('This page is not joined to a ledger: it can read prints, no more.'))

/** Prints are read in the browser; all that asks for a ledger is refused in a sentence. */
const withoutLedger: Api = { shelf: alone, reel: alone, checkShelf: alone, checkReels: alone }

beginApp(withoutLedger)
