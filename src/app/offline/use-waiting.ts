import { createContext, use, useEffect, useSyncExternalStore } from 'react'
import { useTouch } from '../touch/touch.tsx'
import type { WaitingWeighing } from './browser-store.ts'
import type { WaitingWeighings } from './waiting-weighings.ts'

/** The weighings that wait in this browser. */
export const WaitingContext: React.Context<WaitingWeighings | null> =
  createContext<WaitingWeighings | null>(null)

/** How often it is tried to send what waits, ms. */
const often = 10_000

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
 * Sends what waits: at the beginning, when the page is in touch with the server again, and now and then.
 *
 * @param onSent - told when fewer wait than before
 */
export function useSending(waiting: WaitingWeighings, onSent: () => void): void {
  const { inTouch, exchanges } = useTouch()
  useEffect(() => {
    if (inTouch === false) {
      void waiting.look()
      return undefined
    }
    const send = (): void => {
      const before = waiting.list().length
      waiting.send().then(
        () => {
          if (waiting.list().length < before) onSent()
        },
        // Tried again: it waits where it is.
        () => undefined,
      )
    }
    send()
    const timer = setInterval(() => {
      if (waiting.list().some(({ asks }) => asks === undefined)) send()
    }, often)
    return () => clearInterval(timer)
  }, [waiting, onSent, inTouch, exchanges])
}
