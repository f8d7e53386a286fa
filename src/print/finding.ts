/**
 * Something in the file that a person should know. `note` is for the record, `ask` needs an answer
 * before the figures can be trusted, `warn` is likely to hurt the print or the figures.
 */
export interface Finding {
  /** Stable, snake_case; the list stands in docs/method/findings.md. */
  readonly code: string
  readonly severity: 'note' | 'ask' | 'warn'
  /** First place it occurs: bytes from the start of the machine code. */
  readonly byte: number
  /** First place it occurs: 1-based line. */
  readonly line: number
  /** How often it occurs. */
  readonly count: number
  readonly message: string
}

/** Codes of the findings after which nobody knows what the print draws: no reel is enough for it. */
const drawDoubts = ['maybe_cut_short', 'nothing_drawn', 'e_looks_relative'] as const

/** One of them. */
export type DrawDoubt = (typeof drawDoubts)[number]

/** The first of them among findings. */
export const drawDoubtIn = (findings: readonly Finding[]): DrawDoubt | undefined =>
  drawDoubts.find((doubt) => findings.some(({ code }) => code === doubt))
