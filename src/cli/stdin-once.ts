import { usageFault } from './fault.ts'

/** @throws Fault where the print and the facts would both come from standard input */
export const stdinOnce = (files: readonly string[], ledger: string | undefined): void => {
  if (!files.includes('-') || ledger !== '-') return
  throw usageFault('stdin_twice', '- stands for standard input, and can be read only once.')
}
