import './look/tokens.css'
import './look/base.css'

import {
  MutationCache,
  QueryCache,
  QueryClient,
  QueryClientProvider,
  useQueryClient,
} from '@tanstack/react-query'
import { lazy, type ReactNode, StrictMode, Suspense, useEffect } from 'react'

import { createRoot } from 'react-dom/client'
import { Route, Switch, useLocation } from 'wouter'
import type { Api } from './api/api.ts'
import { asksToLogIn } from './api/problem-fault.ts'
import { signedApi } from './api/signed-api.ts'
import { ApiContext } from './api/use-api.ts'
import { CheckSheet } from './check/check-sheet.tsx'
import { printOfOneTool } from './check/reel-asked.ts'
import { useDroppedPrint } from './check/use-dropped-print.ts'
import { type ReadingAtHand, useReading } from './check/use-reading.ts'
import { useFirstRun } from './first/use-first-run.ts'
import { SheetBoundary } from './frame/sheet-boundary.tsx'
import { UnderLogIn } from './log-in/under-log-in.tsx'
import { ChoicesOf } from './look/choices.tsx'
import { beginGround } from './look/ground.ts'
import { apiOffline } from './offline/api-offline.ts'
import { useKeeping } from './offline/use-keeping.ts'
import { WaitingContext } from './offline/use-waiting.ts'
import { WaitingWeighings } from './offline/waiting-weighings.ts'
import { writerOf } from './people/writer.ts'
import { useSendingRunning } from './running/use-running.ts'
import { ShelfSheet } from './shelf/shelf-sheet.tsx'
import { isOfLedger, sessionKey } from './touch/query-keys.ts'
import { TouchOf, useTouch } from './touch/touch.tsx'

/** Loaded when it is gone to: its fields are the heaviest of the app. */
const BenchSheet = lazy(() =>
  import('./bench/bench-sheet.tsx').then((module) => ({ default: module.BenchSheet })),
)

const ReelSheet = lazy(() =>
  import('./reel/reel-sheet.tsx').then((module) => ({ default: module.ReelSheet })),
)

const SlateSheet = lazy(() =>
  import('./slate/slate-sheet.tsx').then((module) => ({ default: module.SlateSheet })),
)

/** Seldom opened, so fetched when it is. */
const SetUpSheet = lazy(async () => {
  const { SetUpSheet: sheet } = await import('./set-up/set-up-sheet.tsx')
  return { default: sheet }
})

/** Draws the app into the page's element `sheet`, on the Api given. */
export function beginApp(server: Api): void {
  const waiting = new WaitingWeighings(server)
  const unsigned = apiOffline(server, waiting)
  const api = signedApi(unsigned, () => writerOf(unsigned))
  const root = document.getElementById('sheet')
  if (root === null) throw new Error('The page has no element for the sheet.')
  beginGround()
  // A session that ended is found out by whatever was asked.
  const onError = (error: Error): void => {
    if (asksToLogIn(error)) void queries.invalidateQueries({ queryKey: sessionKey })
  }
  const queries: QueryClient = new QueryClient({
    queryCache: new QueryCache({ onError }),
    mutationCache: new MutationCache({ onError }),
    defaultOptions: {
      queries: {
        retry: false,
        refetchOnWindowFocus: false,
        staleTime: 30_000,
        // The server may be this machine, whatever becomes of the network.
        networkMode: 'always',
      },
      mutations: { networkMode: 'always' },
    },
  })
  createRoot(root).render(
    <StrictMode>
      <QueryClientProvider client={queries}>
        <ApiContext value={api}>
          <WaitingContext value={waiting}>
            <ChoicesOf>
              <TouchOf>
                <Sheets />
              </TouchOf>
            </ChoicesOf>
          </WaitingContext>
        </ApiContext>
      </QueryClientProvider>
    </StrictMode>,
  )
}

/** The print at hand stays while other sheets are looked at, and when another ledger takes its place. */
function Sheets(): ReactNode {
  const at = useReading()
  const { isOut, exchanges } = useTouch()
  useDroppedPrint(at.take, isOut)
  return (
    <UnderLogIn isOut={isOut}>
      <SheetsOfLedger key={exchanges} at={at} isAnother={exchanges > 0} />
    </UnderLogIn>
  )
}

function SheetsOfLedger({
  at,
  isAnother,
}: {
  readonly at: ReadingAtHand
  /** Another ledger took the place of the one the page began with. */
  readonly isAnother: boolean
}): ReactNode {
  const queries = useQueryClient()
  useKeeping()
  useSendingRunning()
  const first = useFirstRun(at.reading.kind === 'read')
  const [path] = useLocation()
  useEffect(() => {
    // What was pressed is gone: who goes by keys goes on at the sheet.
    const isLost = document.activeElement === document.body
    if (isAnother && isLost) document.getElementById('drawn')?.focus()
  }, [isAnother])
  return (
    <SheetBoundary path={path} onAgain={() => queries.removeQueries({ predicate: isOfLedger })}>
      <Switch>
        <Route path="/shelf">
          <ShelfSheet at={at} first={first} />
        </Route>
        <Route path="/slate">
          <Suspense fallback={null}>
            <SlateSheet at={at} />
          </Suspense>
        </Route>
        <Route path="/bench">
          <Suspense fallback={null}>
            <BenchSheet />
          </Suspense>
        </Route>
        <Route path="/set-up/:part?">
          {({ part }) => (
            <Suspense fallback={null}>
              <SetUpSheet part={part ?? null} />
            </Suspense>
          )}
        </Route>
        <Route path="/reel/:id">
          {({ id }) => (
            <Suspense fallback={null}>
              <ReelSheet key={id} id={id} print={printOfOneTool(at)} />
            </Suspense>
          )}
        </Route>
        <Route>
          <CheckSheet at={at} first={first} />
        </Route>
      </Switch>
    </SheetBoundary>
  )
}
