import { usageFault } from './fault.ts'

/** @throws Fault where the print and the facts would both come from standard input */
export const stdinOnce = (file: string | undefined, ledger: string | undefined): void => {
  if (file !== '-' || ledger !== '-') return
  throw usageFault('stdin_twice', '- stands for standard input, and can be read only once.')
}
