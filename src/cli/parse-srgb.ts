import { usageFault } from './fault.ts'

/** A colour as `#20242b`, in either case. @throws Fault `srgb_malformed` */
export const parseSrgb = (typed: string, option: string): string => {
  const found = /^#?([0-9a-f]{6})$/i.exec(typed.trim())?.[1]
  if (found !== undefined) return `#${found.toLowerCase()}`
  throw usageFault(
    'srgb_malformed',
    `${option}: "${typed}" is no colour of a screen. Write two hexadecimal figures each for red, green and blue, as '#20242b'.`,
    option,
  )
}
