import { type Measured, parseFactor as parseUnits } from '../units/index.ts'
import { usageFault } from './fault.ts'

/** A factor about 1 as an option has it. @throws Fault with the codes of the units' parser */
export const parseFactor = (text: string, option: string): Measured => {
  const read = parseUnits(text)
  if (read.ok) return read.value
  throw usageFault(read.refusal.code, `${option}: ${read.refusal.message}`, option)
}
