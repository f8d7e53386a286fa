import type { FileText } from './parse-file-options.ts'
import type { PictureText } from './picture.ts'

/** What was typed after `check`, as commander hands it over. */
export interface CheckText extends FileText, PictureText {
  readonly json?: boolean
  readonly reel?: string
  readonly printer?: string
  readonly data?: string
  readonly ledger?: string
  readonly colour?: string
  readonly make?: string
  readonly place?: string
  readonly all?: boolean
  readonly subfolders?: boolean
  readonly tool?: readonly string[]
  readonly feedFactor?: string
  readonly startAllowance?: string
  /** When it is started. */
  readonly start?: string
  /** Of several prints, whether each begins when the one before has ended. */
  readonly inTurn?: boolean
  readonly tail?: string
  readonly draw?: string
  readonly mass?: string
  readonly member?: string
  readonly stretch?: string
  readonly confidence?: string
  readonly material?: string
  readonly density?: string
}
