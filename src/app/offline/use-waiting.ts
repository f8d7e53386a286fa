import { createContext, use, useCallback, useEffect, useSyncExternalStore } from 'react'
import { useTouch } from '../touch/touch.tsx'
import type { WaitingWeighing } from './browser-store.ts'
import { ledgerShown } from './ledger-shown.ts'
import type { WaitingWeighings } from './waiting-weighings.ts'

/** The weighings that wait in this browser. */
export const WaitingContext: React.Context<WaitingWeighings | null> =
  createContext<WaitingWeighings | null>(null)

/** Pauses before what waits is sent again, ms: a word that was lost costs a moment, a server that fails is left alone. */
const pauses = { first: 1000, last: 10_000 }

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
    let timer: ReturnType<typeof setTimeout> | undefined
    let isOver = false
    const sendAfter = (pause: number): void => {
      timer = setTimeout(async () => {
        await send()
        if (!isOver) sendAfter(Math.min(2 * pause, pauses.last))
      }, pause)
    }
    sendAfter(pauses.first)
    return () => {
      isOver = true
      clearTimeout(timer)
    }
  }, [send, isLost, latest])
}
