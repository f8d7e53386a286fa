import type { MeasuredJson } from '../../contract/index.ts'
import {
  accept,
  formatMeasured,
  type Measured,
  type Outcome,
  parseDensity,
  parseFactor,
  parsePercent,
  refuse,
  withTypedDoubt,
} from '../../units/index.ts'
import { readLength, readMass } from '../field/read-in-unit.ts'
import { rowWords } from '../strings/row-words.ts'
import { type MassUnit, markOf } from '../strings/show-figure.ts'

/** What is told of a row under one key, as it is typed. */
export interface RowField {
  readonly key: string
  readonly label: string
  readonly hint?: string | undefined
  /** As it stands in the field; '' where nothing is told. */
  readonly show: (value: unknown) => string
  /** As the ledger has it, of what is no blank. */
  readonly read: (text: string) => Outcome<unknown>
  readonly needed?: true
  /** A material, found by words. */
  readonly isMaterial?: true
  /** Key of the row that it stands within, as one of its own. */
  readonly within?: 'motion'
  /** One of these, instead of typed words. */
  readonly choices?: readonly (readonly [value: string, word: string])[]
}

type Key = keyof typeof rowWords.fields

const hintOf = (key: Key): { readonly hint?: string } =>
  key in rowWords.hints ? { hint: rowWords.hints[key as keyof typeof rowWords.hints] } : {}

/** What a row has under a field's key. */
export const valueOfField = (
  row: Readonly<Record<string, unknown>>,
  { key, within }: Pick<RowField, 'key' | 'within'>,
): unknown => {
  if (within === undefined) return row[key]
  const held = row[within]
  return typeof held === 'object' && held !== null && key in held
    ? (held as Readonly<Record<string, unknown>>)[key]
    : undefined
}

const field = (key: Key): Pick<RowField, 'key' | 'label' | 'hint'> => ({
  key,
  label: rowWords.fields[key],
  ...hintOf(key),
})

const isMeasured = (value: unknown): value is MeasuredJson =>
  typeof value === 'object' && value !== null && 'value' in value && 'u' in value

export const wordsField = (key: Key, needed?: true): RowField => ({
  ...field(key),
  show: (value) => (typeof value === 'string' ? value : ''),
  read: (text) => accept(text.trim()),
  ...(needed && { needed }),
})

export const materialField: RowField = { ...wordsField('material'), isMaterial: true }

export const choiceField = (key: Key, choices: NonNullable<RowField['choices']>): RowField => ({
  ...wordsField(key),
  choices: [['', rowWords.usual], ...choices],
})

/** A figure that the ledger keeps with its uncertainty. */
const measuredField = <Q extends number>(
  key: Key,
  unit: string,
  parse: (text: string) => Outcome<Measured<Q>>,
  per = 1,
): RowField => ({
  ...field(key),
  show: (value) =>
    isMeasured(value)
      ? formatMeasured({ value: value.value * per, u: value.u * per }, unit).trim()
      : '',
  read: (text) => {
    const read = withTypedDoubt(text, parse)
    return read.ok ? accept({ value: read.value.value, u: read.value.u }) : read
  },
})

export const lengthField = (key: Key): RowField =>
  measuredField(key, 'mm', (text) => readLength(text))
export const densityField = (key: Key): RowField => measuredField(key, 'g/cm³', parseDensity)
export const percentField = (key: Key): RowField => measuredField(key, '%', parsePercent, 100)

/** A feed factor: its own usual doubt, and never none. */
export const factorField = (key: Key): RowField => ({
  ...measuredField(key, '', parseFactor),
  read: (text) => {
    const read = parseFactor(text)
    if (!read.ok) return read
    const { value, u } = read.value
    return u > 0
      ? accept({ value, u })
      : refuse({ code: 'doubt_needed', message: rowWords.doubtNeeded })
  },
})

/** A figure that stands as it is printed or set. */
const plainField = <Q extends number>(
  key: Key,
  unit: string,
  parse: (text: string) => Outcome<Measured<Q>>,
  {
    per = 1,
    mayBeNothing = false,
  }: { readonly per?: number; readonly mayBeNothing?: boolean } = {},
): RowField => ({
  ...field(key),
  show: (value) => (typeof value === 'number' ? showPlain(value * per, unit) : ''),
  read: (text) => {
    const read = parse(text)
    if (!read.ok) return read
    const { value, u } = read.value
    if (u > 0) return refuse({ code: 'no_uncertainty_here', message: rowWords.noDoubt })
    if (value > 0 || mayBeNothing) return accept(value)
    return refuse({ code: 'not_positive', message: rowWords.notPositive })
  },
})

const showPlain = (figure: number, unit: string): string =>
  `${Number(figure.toPrecision(unit === 'oz' ? 4 : 12))} ${unit}`

/** @param unit - that it is shown in, and of a number without one */
export const plainMassField = (key: Key, unit: MassUnit, mayBeNothing = false): RowField => ({
  ...plainField(key, 'g', (text) => readMass(text, unit), { mayBeNothing }),
  show: (value) => (typeof value === 'number' ? showPlain(markOf(value, unit), unit) : ''),
})
export const plainLengthField = (key: Key): RowField =>
  plainField(key, 'mm', (text) => readLength(text))
export const plainPercentField = (key: Key): RowField =>
  plainField(key, '%', parsePercent, { per: 100, mayBeNothing: true })
