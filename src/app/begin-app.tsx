import './look/tokens.css'
import './look/base.css'
import { QueryClient, QueryClientProvider } from '@tanstack/react-query'
import { lazy, type ReactNode, StrictMode, Suspense } from 'react'
import { createRoot } from 'react-dom/client'
import { Route, Switch } from 'wouter'
import type { Api } from './api/api.ts'
import { ApiContext } from './api/use-api.ts'
import { CheckSheet } from './check/check-sheet.tsx'
import { useReading } from './check/use-reading.ts'
import { ChoicesOf } from './look/choices.tsx'
import { beginGround } from './look/ground.ts'
import { ReelSheet } from './reel/reel-sheet.tsx'
import { ShelfSheet } from './shelf/shelf-sheet.tsx'

/** Seldom opened, so fetched when it is. */
const SetUpSheet = lazy(async () => {
  const { SetUpSheet: sheet } = await import('./set-up/set-up-sheet.tsx')
  return { default: sheet }
})

/** Draws the app into the page's element `sheet`, on the Api given. */
export function beginApp(api: Api): void {
  const root = document.getElementById('sheet')
  if (root === null) throw new Error('The page has no element for the sheet.')
  beginGround()
  const queries = new QueryClient({
    defaultOptions: { queries: { retry: false, refetchOnWindowFocus: false, staleTime: 30_000 } },
  })
  createRoot(root).render(
    <StrictMode>
      <QueryClientProvider client={queries}>
        <ApiContext value={api}>
          <ChoicesOf>
            <Sheets />
          </ChoicesOf>
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
      <Route path="/set-up/:part?">
        {({ part }) => (
          <Suspense fallback={null}>
            <SetUpSheet part={part ?? null} />
          </Suspense>
        )}
      </Route>
      <Route>
        <CheckSheet at={at} />
      </Route>
    </Switch>
  )
}
