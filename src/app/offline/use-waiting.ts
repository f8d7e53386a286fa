import { createContext, use, useCallback, useEffect, useSyncExternalStore } from 'react'
import { useTouch } from '../touch/touch.tsx'
import type { WaitingWeighing } from './browser-store.ts'
import { ledgerShown } from './ledger-shown.ts'
import { sendAgain } from './send-again.ts'
import type { WaitingWeighings } from './waiting-weighings.ts'

/** The weighings that wait in this browser. */
export const WaitingContext: React.Context<WaitingWeighings | null> =
  createContext<WaitingWeighings | null>(null)

/** @throws Error outside `WaitingContext` */
export function useWaiting(): {
  readonly waiting: WaitingWeighings
  readonly list: readonly WaitingWeighing[]
} {
  const waiting = use(WaitingContext)
  if (waiting === null) throw new Error('Nothing waits here.')
  return { waiting, list: useSyncExternalStore(waiting.listen, waiting.list) }
}

/**
 * Sends what waits: at the beginning, when the page is in touch with the server and logged in again, soon after a
 * weighing came to wait though it is, and then more and more seldom.
 *
 * @param onSent - told when fewer wait than before
 */
export function useSending(waiting: WaitingWeighings, onSent: () => void): void {
  const { inTouch, isOut, exchanges } = useTouch()
  const isLost = inTouch === false || isOut
  const list = useSyncExternalStore(waiting.listen, waiting.list)
  const latest = list.findLast(
    ({ asks, ledger }) => asks === undefined && ledger === ledgerShown(),
  )?.id
  const send = useCallback(async () => {
    const before = waiting.list().length
    // What fails waits where it is, and is tried again.
    await waiting.send().catch(() => undefined)
    if (waiting.list().length < before) onSent()
  }, [waiting, onSent])
  useEffect(() => {
    // A browser that keeps nothing has nothing that waits.
    if (isLost) waiting.look().catch(() => undefined)
    else void send()
  }, [waiting, send, isLost, exchanges])
  useEffect(() => {
    if (isLost || latest === undefined) return undefined
    return sendAgain(send)
  }, [send, isLost, latest])
}
