import { type ComponentProps, lazy, type ReactNode, Suspense } from 'react'
import type { PutRightForm } from './put-right-form.tsx'

/** Fetched when something is put right: the list it has to pick from is the heaviest part of the app. */
const Form = lazy(async () => ({ default: (await import('./put-right-form.tsx')).PutRightForm }))

/** Puts a fact right, as `PutRightForm`. */
export const PutRight = (props: ComponentProps<typeof PutRightForm>): ReactNode => (
  <Suspense fallback={null}>
    <Form {...props} />
  </Suspense>
)
