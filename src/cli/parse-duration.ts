import { usageFault } from './fault.ts'

const parts = /^(?:(\d+)\s*d)?\s*(?:(\d+)\s*h)?\s*(?:(\d+)\s*m(?:in)?)?\s*(?:(\d+)\s*s)?$/i
const colons = /^(\d{1,3}):(\d\d)(?::(\d\d))?$/

const amount = (part: string | undefined): number => (part === undefined ? 0 : Number(part))

/**
 * A length of time as typed: `3h40m`, `3 h 40 min`, `3:40`, `45min`.
 *
 * @returns s, > 0
 * @throws Fault `duration_malformed`
 */
export const parseDuration = (typed: string, option: string): number => {
  const text = typed.trim()
  const clock = colons.exec(text)?.slice(1)
  const [days, hours, minutes, seconds] =
    clock === undefined ? (parts.exec(text)?.slice(1) ?? []) : [undefined, ...clock]
  const total = ((amount(days) * 24 + amount(hours)) * 60 + amount(minutes)) * 60 + amount(seconds)
  if (total > 0) return total
  throw usageFault(
    'duration_malformed',
    `${option}: "${typed}" is no length of time. Write 3h40m, 3:40 or 45min.`,
    option,
  )
}
