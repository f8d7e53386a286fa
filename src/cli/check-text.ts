import type { FileText } from './parse-file-options.ts'

/** What was typed after `check`, as commander hands it over. */
export interface CheckText extends FileText {
  readonly json?: boolean
  readonly tool?: readonly string[]
  readonly feedFactor?: string
  readonly start?: string
  readonly tail?: string
  readonly draw?: string
  readonly mass?: string
  readonly member?: string
  readonly stretch?: string
  readonly confidence?: string
  readonly material?: string
  readonly density?: string
}
