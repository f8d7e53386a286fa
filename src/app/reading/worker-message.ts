import type { PrintFile, ReadOptions } from '../../print/index.ts'
import type { Outcome } from '../../units/index.ts'

/** What a person answered of a file, what it leaves open, and what the printer may do. */
export type FileAnswers = Pick<
  ReadOptions,
  'eUnit' | 'eMode' | 'diameter_mm' | 'madeFor_mm' | 'motion'
>

/** What the reading worker is asked. */
export interface ReadingAsked {
  readonly file: File
  readonly answers: FileAnswers
}

/** What the hashing worker is asked. */
export interface HashingAsked {
  readonly file: File
}

/** What the reading worker says, in this order: any number of `progress`, then one `read`. */
export type ReadingMessage =
  | { readonly kind: 'progress'; readonly bytes: number }
  | { readonly kind: 'read'; readonly outcome: Outcome<PrintFile> }
  /** The file could not be got at: it was moved, or taken away. */
  | { readonly kind: 'lost' }

/** What the hashing worker says, once. */
export type HashingMessage =
  | { readonly kind: 'hashed'; readonly sha256: string }
  | { readonly kind: 'lost' }
