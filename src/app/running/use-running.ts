import { type QueryClient, useQuery, useQueryClient } from '@tanstack/react-query'
import { useCallback, useEffect, useMemo, useSyncExternalStore } from 'react'
import type { RunningChangeRequest, RunningPrintsJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { ledgerShown } from '../offline/ledger-shown.ts'
import { sendAgain } from '../offline/send-again.ts'
import { runningKey } from '../touch/query-keys.ts'
import { useTouch } from '../touch/touch.tsx'
import {
  changeHere,
  endHere,
  leaveOut,
  listenHere,
  runningHere,
  sendRunning,
  type TakenRow,
  waitsNext,
  whyNot,
} from './running-here.ts'
import { type RunningShown, runningShown } from './running-print.ts'

const nothing: RunningPrintsJson = { running: [] }

/** The prints that run with reels of the ledger that is shown, whoever started them, oldest first. */
export function useRunning(): readonly RunningShown[] {
  const api = useApi()
  const { data = nothing } = useQuery({ queryKey: runningKey, queryFn: () => api.running() })
  const here = useSyncExternalStore(listenHere, runningHere)
  const ledger = ledgerShown()
  return useMemo(() => runningShown(data, here, ledger), [data, here, ledger])
}

/** Shows what the server took at once; it is asked anew as of any other write. */
const takenBy =
  (queries: QueryClient): TakenRow =>
  (row, start) => {
    // What is being asked was asked before.
    void queries.cancelQueries({ queryKey: runningKey })
    queries.setQueryData<RunningPrintsJson>(runningKey, (before = nothing) => {
      const there = before.running.find((one) => one.row.id === row.id)
      const others = before.running.filter((one) => one !== there)
      if (row.ended !== undefined) return { running: others }
      const { spiral = false, height_mm = [] } = start?.layers ?? {}
      const more = { file: start?.file ?? null, layers: { spiral, height_mm } }
      return { running: [...others, { ...(there ?? more), row }] }
    })
    void queries.invalidateQueries({ queryKey: runningKey })
  }

/** Sends what waits here of prints that run. */
const useSend = (): (() => Promise<void>) => {
  const api = useApi()
  const queries = useQueryClient()
  return useCallback(() => sendRunning(api, takenBy(queries)), [api, queries])
}

/** Whether what is told waits here: the server can not be reached, or asks to log in. */
export const useIsLost = (): boolean => {
  const { inTouch, isOut } = useTouch()
  return inTouch === false || isOut
}

/** Sends what waits while the page is in touch with the server and logged in, soon, then more and more seldom. */
export function useSendingRunning(): void {
  const send = useSend()
  const { inTouch, isOut } = useTouch()
  const first = useSyncExternalStore(listenHere, waitsNext)
  const mayAsk = inTouch === true && !isOut
  useEffect(() => {
    if (!mayAsk || first === undefined) return undefined
    void send()
    return sendAgain(send)
  }, [send, mayAsk, first])
}

/**
 * Keeps something of a print that runs here and sends it: where the server can not be reached it waits.
 * What it refuses is an error, and is forgotten.
 */
export function useSent(): (id: string | null, forget: () => void) => Promise<void> {
  const send = useSend()
  return useCallback(
    async (id, forget) => {
      await send()
      const asks = whyNot(id)
      if (asks === undefined) return
      forget()
      throw new Error(asks)
    },
    [send],
  )
}

/** Tells what changed of a print that runs. @param onTold - told that it is kept, here or by the server */
export function useRunningChange(
  draw: string,
  onTold: () => void = () => undefined,
): ReturnType<typeof useSending<void, RunningChangeRequest>> {
  const sent = useSent()
  return useSending<void, RunningChangeRequest>({
    mutationFn: (change) => {
      const id = changeHere(draw, change)
      return sent(id, () => {
        if (id !== null) leaveOut(id)
      })
    },
    onSuccess: onTold,
  })
}

/** Takes a print that was written down off those that run. */
export function useEndRunning(): (draw: string) => void {
  const queries = useQueryClient()
  return useCallback(
    (draw) => {
      endHere(draw)
      void queries.cancelQueries({ queryKey: runningKey })
      queries.setQueryData<RunningPrintsJson>(runningKey, (before = nothing) => ({
        running: before.running.filter(({ row }) => row.id !== draw),
      }))
      void queries.invalidateQueries({ queryKey: runningKey })
    },
    [queries],
  )
}
