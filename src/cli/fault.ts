import type { ErrorJson } from '../contract/index.ts'
import type { Refusal } from '../units/index.ts'
import { inCommandWords } from './in-command-words.ts'

/** Exit codes that are no answer. */
export const exitCode = {
  usage: 2,
  unreadable: 3,
  ledger: 4,
  surprising: 10,
  cancelled: 130,
} as const

/** Why a command ends without an answer. Thrown inside the commands, told once in `run`. */
export class Fault extends Error {
  readonly exit: number
  readonly error: ErrorJson['error']
  /** What was refused, in words that name no option, where something was. */
  readonly refusal: Refusal | undefined

  constructor(
    exit: number,
    error: Partial<ErrorJson['error']> & { code: string; message: string },
    refusal?: Refusal,
  ) {
    super(error.message)
    this.name = 'Fault'
    this.exit = exit
    this.refusal = refusal
    this.error = {
      file: null,
      option: null,
      line: null,
      byte: null,
      expected: null,
      received: null,
      ...error,
    }
  }
}

/** Wrong usage: an option that was not taken, or options that do not go together. */
export const usageFault = (code: string, message: string, option?: string): Fault =>
  new Fault(exitCode.usage, { code, message, option: option ?? null })

/** Wrong usage, in the words of what refused the value of an option. */
export const refusedOption = (option: string, refusal: Refusal): Fault =>
  new Fault(
    exitCode.usage,
    {
      code: refusal.code,
      message: `${option}: ${inCommandWords(refusal)}`,
      option,
      expected: refusal.expected ?? null,
      received: refusal.received ?? null,
    },
    refusal,
  )

/** A file that could not be read, in the words of the reader. */
export const refusedFile = (file: string, refusal: Refusal): Fault =>
  new Fault(
    exitCode.unreadable,
    {
      code: refusal.code,
      message: inCommandWords(refusal),
      file,
      line: refusal.line ?? null,
      byte: refusal.at ?? null,
    },
    refusal,
  )

/** A fault as a surface without options tells it. */
export const refusalOf = ({ error: { code, message, line }, refusal }: Fault): Refusal =>
  refusal ?? { code, message, ...(line !== null && { line }) }
