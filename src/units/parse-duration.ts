import { accept, type Outcome, refuse } from './refusal.ts'

const parts =
  /^(?:(\d+)\s*d)?\s*(?:(\d+(?:[.,]\d+)?)\s*h)?\s*(?:(\d+)\s*m(?:in)?)?\s*(?:(\d+)\s*s)?$/i
const colons = /^(\d{1,3}):(\d\d)(?::(\d\d))?$/

const amount = (part: string | undefined): number =>
  part === undefined ? 0 : Number(part.replace(',', '.'))

/** Nothing that is printed takes longer, s. */
const longest = 10_000 * 3600

/**
 * A length of time as a person types it: `3h40m`, `3 h 40 min`, `3:40`, `3.5h`, `45min`, `1d 2h`.
 *
 * @returns s, > 0 and at most 10 000 h; `duration_malformed`
 */
export const parseDuration = (text: string): Outcome<number> => {
  const typed = text.trim()
  const clock = colons.exec(typed)?.slice(1)
  const [days, hours, minutes, seconds] =
    clock === undefined ? (parts.exec(typed)?.slice(1) ?? []) : [undefined, ...clock]
  const total = ((amount(days) * 24 + amount(hours)) * 60 + amount(minutes)) * 60 + amount(seconds)
  if (total > 0 && total <= longest) return accept(total)
  return refuse({
    code: 'duration_malformed',
    message: `"${text}" is no time that a print takes. Write 3h40m, 3:40, 3.5h or 45min.`,
    received: text,
  })
}
