import { usageFault } from './fault.ts'

/**
 * The number of a layer, from 1.
 *
 * @param option - for the message, as `how`: what to write instead
 * @throws Fault of the code
 */
export const parseLayer = (
  typed: string,
  { code, option, how }: { readonly code: string; readonly option: string; readonly how: string },
): number => {
  if (/^[1-9]\d{0,8}$/.test(typed.trim())) return Number(typed)
  throw usageFault(code, `${option}: "${typed}" is no layer. ${how}`, option)
}
