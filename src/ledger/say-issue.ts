import type { z } from 'zod'

/** What a schema found wrong, in words, and the figures beside them. */
export interface SaidIssue {
  /** A sentence without its full stop. */
  readonly words: string
  readonly expected?: string
  readonly received?: string
}

/**
 * One finding of a schema as a sentence: which key, what was expected, what stands there.
 *
 * @param input - what was parsed, as it came
 */
export const sayIssue = (issue: z.core.$ZodIssue, input: unknown): SaidIssue => {
  const path = issue.path.map(String)
  const there = valueAt(input, path)
  const name = pathText(path)
  if (issue.code === 'unrecognized_keys') {
    const keys = issue.keys.map((key) => `"${pathText([...path, key])}"`)
    return {
      words: `there is no key ${keys.join(' and no key ')} in a record of this kind`,
      received: issue.keys.join(', '),
    }
  }
  const expected = expectedOf(issue)
  if (there === undefined) {
    return { words: `"${name}" is missing; expected ${expected}`, expected, received: 'nothing' }
  }
  const received = shorten(there)
  const what = name === '' ? 'the line' : `"${name}"`
  return { words: `${what} is ${received}; expected ${expected}`, expected, received }
}

/** `calipers.places_mm[0]` */
const pathText = (path: readonly string[]): string =>
  path.reduce(
    (text, key) =>
      /^\d+$/.test(key) && text !== '' ? `${text}[${key}]` : text === '' ? key : `${text}.${key}`,
    '',
  )

const valueAt = (input: unknown, path: readonly string[]): unknown => {
  let value = input
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined
    value = (value as Readonly<Record<string, unknown>>)[key]
  }
  return value
}

const longest = 60

const shorten = (value: unknown): string => {
  const text = JSON.stringify(value) ?? String(value)
  return text.length <= longest ? text : `${text.slice(0, longest)}…`
}

/** What the patterns of the schemas stand for. */
const patterns: readonly (readonly [find: RegExp, words: string])[] = [
  [/\\d\{4\}-\\d\\d-\\d\\dT/, 'a moment like "2026-03-01T18:30:00.000Z"'],
  [/u0000/, 'text of one line'],
  [/\[0-9a-f\]\{64\}/, 'the SHA-256 of a file, with "/NAME" for a member of a zip'],
  [/#\[0-9a-f\]\{6\}/, 'a colour like "#1f6fb2" in small letters'],
  [/\[A-Z\]\{3\}/, 'a currency of three letters like "EUR"'],
  [/\\d\{1,9\}/, 'an amount like "21.90"'],
]

/** What a refinement complains of, turned into what it wants. */
const wants: Readonly<Record<string, string>> = {
  'no id, or one with a slip in it': 'an id whose last symbol fits the others',
  'no date': 'a moment of the calendar like "2026-03-01T18:30:00.000Z"',
  'not above 0': 'a value above 0',
  'below 0': 'a value of 0 or more',
  'not 0 to 1': 'a value from 0 to 1',
  'mass or length': 'either "mass_g" or "length_mm"',
  'nothing measured': 'at least one thing that was measured',
}

const expectedOf = (issue: z.core.$ZodIssue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return kindWords[issue.expected] ?? issue.expected
    case 'invalid_value':
      return oneOf(issue.values.map((value) => JSON.stringify(value) ?? String(value)))
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options)
        ? oneOf(issue.options.map((option) => JSON.stringify(option) ?? String(option)))
        : 'something else'
    case 'too_small':
      return `${issue.inclusive === true ? 'at least' : 'more than'} ${issue.minimum}${unitOf(issue.origin, issue.minimum)}`
    case 'too_big':
      return `${issue.inclusive === true ? 'at most' : 'less than'} ${issue.maximum}${unitOf(issue.origin, issue.maximum)}`
    case 'invalid_format':
      return patterns.find(([find]) => find.test(issue.pattern ?? ''))?.[1] ?? 'another text'
    case 'custom':
      return wants[issue.message] ?? issue.message
    case 'unrecognized_keys':
    case 'not_multiple_of':
    case 'invalid_key':
    case 'invalid_element':
    default:
      return issue.message
  }
}

const kindWords: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'an object in braces',
  record: 'an object in braces',
}

const unitOf = (origin: string, count: number | bigint): string => {
  const noun = origin === 'string' ? 'letter' : origin === 'array' ? 'entry' : ''
  if (noun === '' || count === 1) return noun === '' ? '' : ` ${noun}`
  return noun === 'entry' ? ' entries' : ' letters'
}

const oneOf = (values: readonly string[]): string =>
  values.length === 1 ? values[0]! : `one of ${values.join(', ')}`
