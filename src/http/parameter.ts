import { z } from 'zod'
import { idAlphabet, idLength } from '../contract/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'

/** What stands in the path or the query: the document and the check of it are made of the same schema. */
export interface Parameter {
  readonly about: string
  /** Of the value, which is written as text: a number, `true`, words with commas between them, or JSON. */
  readonly schema: z.ZodType
  /** Without it there is no answer. */
  readonly isRequired?: true
  /** Written as JSON. */
  readonly isJson?: true
  /** What does not fit is told of by what looks it up. */
  readonly isLookedUp?: true
  /** Why it does not fit, where more is to be said than that. */
  readonly refused?: (typed: string) => Refusal | undefined
}

/** A value of this schema. */
export const param = (
  schema: z.ZodType,
  about: string,
  refused?: Parameter['refused'],
): Parameter => ({ about, schema, ...(refused && { refused }) })

/** What the ledger or a table of the program knows it by. */
export const lookedUp = (schema: z.ZodType, about: string): Parameter => ({
  about,
  schema,
  isLookedUp: true,
})

/** JSON of this schema, as it would stand in a body. */
export const jsonParam = (schema: z.ZodType, about: string): Parameter => ({
  about,
  schema,
  isJson: true,
})

/** `true` or `false`. */
export const yesParam = (about: string): Parameter => param(z.boolean(), about)

/** Words that stand somewhere in what is looked for. */
export const wordsParam = (about: string): Parameter => param(z.string().max(500), about)

/** Name or id of a row. */
export const rowParam = (about: string): Parameter => lookedUp(z.string().min(1).max(500), about)

/** A number that a use case holds to bounds, which tells best what is wrong with it. */
export const boundedParam = (
  [least, most]: readonly [least: number, most: number, unit: string],
  about: string,
  read: (value: number) => Outcome<number>,
): Parameter =>
  param(z.number().min(least).max(most), about, (typed) => refusalOf(read(Number(typed))))

/** One of some words, in either case; what reads them tells best what is wrong. */
export const oneOfParam = (
  words: readonly string[],
  about: string,
  read: (typed: string) => Outcome<unknown>,
): Parameter => param(z.enum(words), about, (typed) => refusalOf(read(typed)))

const refusalOf = (outcome: Outcome<unknown>): Refusal | undefined =>
  outcome.ok ? undefined : outcome.refusal

const symbols = `${idAlphabet}${idAlphabet.replaceAll(/\d/g, '').toLowerCase()}`

/** An id as `readId` takes it: in either case, with blanks or hyphens. */
const typedId = (length: number): z.ZodString =>
  z.string().regex(new RegExp(`^[\\s-]*(?:[${symbols}][\\s-]*){${length}}$`))

/** Id of a reel as it is typed. */
export const typedRowId: z.ZodString = typedId(idLength.row)

/** Id of a fact as it is typed. */
export const typedFactId: z.ZodString = typedId(idLength.fact)

/** A number in decimal digits; anything else is none. */
const numberOf = (typed: string): number =>
  /^-?(?:\d+|\d*\.\d+)$/.test(typed) ? Number(typed) : Number.NaN

const booleans: Readonly<Record<string, boolean>> = { true: true, false: false }

const valueOf = (schema: z.ZodType, typed: string): unknown => {
  if (schema instanceof z.ZodNumber) return numberOf(typed.trim())
  if (schema instanceof z.ZodBoolean) return booleans[typed]
  if (schema instanceof z.ZodEnum) return typed.toLowerCase()
  if (schema instanceof z.ZodArray) {
    return typed.split(',').map((one) => valueOf(schema.element as z.ZodType, one))
  }
  return typed
}

const parsed = (typed: string): unknown => {
  try {
    return JSON.parse(typed)
  } catch {
    return undefined
  }
}

/** Whether what was typed is what the parameter takes. @returns `parameter_invalid`, or its own refusal */
export const checkParameter = (
  name: string,
  { schema, isJson, isLookedUp, refused }: Parameter,
  typed: string,
): Outcome<undefined> => {
  if (isLookedUp === true) return accept(undefined)
  const { success, error } = schema.safeParse(
    isJson === true ? parsed(typed) : valueOf(schema, typed),
  )
  if (success) return accept(undefined)
  const own = refused?.(typed)
  if (own !== undefined) return refuse(own)
  const [issue] = error.issues
  const place = issue?.path.join('.') ?? ''
  return refuse({
    code: 'parameter_invalid',
    message: `${name}${place === '' ? '' : `, ${place}`}: ${issue?.message ?? 'not understood'}.${isJson === true ? ' It is written as JSON.' : ''} See /api.`,
    received: typed.slice(0, 200),
  })
}
