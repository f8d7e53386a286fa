import type { ReactNode } from 'react'
import { saidIn } from '../strings/said-in.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { useChoices } from './choices.tsx'

/** A sentence that the app did not word itself: masses stand in the unit chosen. */
export function Said({ children }: { readonly children: string }): ReactNode {
  return saidIn(children, useChoices().unit)
}

/** Why something failed, in a sentence. */
export function Failure({ of }: { readonly of: unknown }): ReactNode {
  return <Said>{sayFailure(of)}</Said>
}
