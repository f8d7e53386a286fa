/**
 * Why something a person gave was not taken. Errors are data: the sentence is made from the
 * parts, the code stays the same from version to version.
 */
export interface Refusal {
  /** Stable, snake_case. */
  readonly code: string
  /** What is wrong, where, and what to do: one or two sentences. */
  readonly message: string
  /** Offset in the text given, or byte in the file, where it can be told. */
  readonly at?: number
  /** 1-based line in the file, where it can be told. */
  readonly line?: number
  readonly expected?: string
  readonly received?: string
}

/** A value, or the reason why there is none. Expected failures are returned, never thrown. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refusal: Refusal }

export const accept = <T>(value: T): Outcome<T> => ({ ok: true, value })
export const refuse = (refusal: Refusal): { readonly ok: false; readonly refusal: Refusal } => ({
  ok: false,
  refusal,
})

/** A broken contract between parts of the program: a caller's mistake, thrown. */
export class DomainError extends RangeError {
  readonly code: string
  constructor(code: string, message: string) {
    super(message)
    this.name = 'DomainError'
    this.code = code
  }
}
