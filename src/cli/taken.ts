import type { Outcome } from '../units/index.ts'
import { refusedOption } from './fault.ts'

/** The value, or wrong usage in the refusal's words. @throws Fault */
export const taken = <T>(outcome: Outcome<T>, option: string): T => {
  if (outcome.ok) return outcome.value
  throw refusedOption(option, outcome.refusal)
}
