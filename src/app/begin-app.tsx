import './look/tokens.css'
import './look/base.css'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { type ReactNode, StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { Route, Switch } from 'wouter'
import type { Api } from './api/api.ts'
import { ApiContext } from './api/use-api.ts'
import { CheckSheet } from './check/check-sheet.tsx'
import { useReading } from './check/use-reading.ts'
import { ChoicesOf } from './look/choices.tsx'
import { beginGround } from './look/ground.ts'
import { apiOffline } from './offline/api-offline.ts'
import { WaitingContext } from './offline/use-waiting.ts'
import { WaitingWeighings } from './offline/waiting-weighings.ts'
import { ReelSheet } from './reel/reel-sheet.tsx'
import { ShelfSheet } from './shelf/shelf-sheet.tsx'

/** Draws the app into the page's element `sheet`, on the Api given. */
export function beginApp(server: Api): void {
  const waiting = new WaitingWeighings(server)
  const api = apiOffline(server, waiting)
  const root = document.getElementById('sheet')
  if (root === null) throw new Error('The page has no element for the sheet.')
  beginGround()
  const queries = new QueryClient({
    // Out of touch with the server a query still finds what was kept.
    defaultOptions: {
      queries: {
        networkMode: 'always',
        retry: false,
        refetchOnWindowFocus: false,
        staleTime: 30_000,
      },
    },
  })
  createRoot(root).render(
    <StrictMode>
      <QueryClientProvider client={queries}>
        <ApiContext value={api}>
          <WaitingContext value={waiting}>
            <ChoicesOf>
              <Sheets />
            </ChoicesOf>
          </WaitingContext>
        </ApiContext>
      </QueryClientProvider>
    </StrictMode>,
  )
}

/** The print at hand stays while other sheets are looked at. */
function Sheets(): ReactNode {
  const at = useReading()
  return (
    <Switch>
      <Route path="/shelf">
        <ShelfSheet />
      </Route>
      <Route path="/reel/:id">{({ id }) => <ReelSheet id={id} />}</Route>
      <Route>
        <CheckSheet at={at} />
      </Route>
    </Switch>
  )
}
