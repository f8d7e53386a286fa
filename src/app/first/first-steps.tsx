import { type ComponentProps, lazy, type ReactNode, Suspense } from 'react'
import type { FirstRun } from './first-run.tsx'

/** Fetched on an empty shelf: nobody needs it twice. */
const Steps = lazy(async () => ({ default: (await import('./first-run.tsx')).FirstRun }))

/** The way to the first verdict, as `FirstRun`: all its steps come together. */
export const FirstSteps = (props: ComponentProps<typeof FirstRun>): ReactNode => (
  <Suspense fallback={null}>
    <Steps {...props} />
  </Suspense>
)
