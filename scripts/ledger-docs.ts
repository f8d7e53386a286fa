// Writes docs/ledger-format.md from the schemas of the ledger: node scripts/ledger-docs.ts
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { ledgerRecord } from '../src/contract/index.ts'
import { ledgerFormat, priorKeys } from '../src/ledger/index.ts'
import { markdownTable } from './markdown-table.ts'
import { type Schema, schemaOf, schemaTable } from './schema-table.ts'

const docs = (name: string): string => fileURLToPath(new URL(`../docs/${name}`, import.meta.url))
const page = docs('ledger-format.md')

const whole = schemaOf(ledgerRecord)
const parts = whole.$defs ?? {}
const partOf = (ref: Schema): Schema => parts[ref.$ref?.split('/').at(-1) ?? ''] ?? {}

/** Schemas of facts, of catalogue rows and of the print row, in the order of the union. */
const groups = (whole.oneOf ?? []).map((one) => (one.oneOf ?? [one]).map(partOf))
const [facts = [], rows = [], prints = []] = groups

const kindOf = ({ properties }: Schema): string => String(properties?.['kind']?.const)

const only = (schema: Schema, take: (key: string) => boolean): Schema => ({
  ...schema,
  properties: Object.fromEntries(
    Object.entries(schema.properties ?? {}).filter(([key]) => take(key)),
  ),
})

const ofEvery = (schemas: readonly Schema[]): ReadonlySet<string> =>
  new Set(
    Object.keys(schemas[0]?.properties ?? {}).filter((key) =>
      schemas.every(({ properties }) => properties?.[key] !== undefined),
    ),
  )

/** The keys that every schema has, once, then a section for each with those of its own. */
const sections = (schemas: readonly Schema[]): string => {
  const common = ofEvery(schemas)
  const shared = schemaTable(only(schemas[0]!, (key) => common.has(key) && key !== 'kind'))
  const own = schemas.map((schema) => {
    const rest = only(schema, (key) => !common.has(key))
    const keys = Object.keys(rest.properties ?? {}).length
    const table = keys === 0 ? 'No keys of its own.' : schemaTable(rest)
    return `\n### ${kindOf(schema)}\n\n${schema.description}\n\n${table}\n`
  })
  return `${shared}\n${own.join('')}`
}

const textParts = (): string =>
  markdownTable(
    ['part', 'what'],
    ['row_id', 'fact_id', 'print_id', 'moment', 'words'].map((name) => [
      `\`${name}\``,
      parts[name]?.description ?? '',
    ]),
  )

const priorTable = (): string =>
  markdownTable(
    ['key', 'value', 'u', 'unit', 'standing', 'where from'],
    priorKeys().map(({ key, prior: { value, u, unit, source } }) => [
      `\`${key}\``,
      String(value),
      String(u),
      unit,
      source.standing,
      source.where,
    ]),
  )

const headerTable = (): string =>
  markdownTable(
    ['key', 'kind', 'what'],
    [
      ['`kind`', '`reelreckon-ledger`', ''],
      ['`format`', 'integer', `${ledgerFormat}; a newer one is refused`],
      ['`written_at`', 'moment', 'when the file was written'],
    ],
  )

/** The first line of some kinds of the example, to be seen on the page. */
const exampleLines = (): string => {
  const lines = readFileSync(docs('harbour-bench.ndjson'), 'utf8').split('\n')
  const kinds = ['reelreckon-ledger', 'make', 'opened', 'weighed', 'put-right']
  return kinds.map((kind) => lines.find((line) => line.startsWith(`{"kind":"${kind}"`))).join('\n')
}

/** Parts of records that have keys of their own. */
export const ofRows: readonly string[] = [
  'weighing',
  'motion',
  'waiting_tool',
  'waiting_changes',
  'plan_choice',
  'running_reel',
  'running_clock',
  'running_told',
]

/** docs/ledger-format.md as the schemas have it. */
export const ledgerPage = (): string => `# The ledger as a file

<!-- Written by scripts/ledger-docs.ts from src/contract/ and src/ledger/. -->

A ledger is text in UTF-8: one JSON object a line (NDJSON), the first of them the header. Everything
that the ledger knows is in it: what is in a database can be written to such a file and read back.
\`readLedger\`, \`LedgerReader\`, \`ledgerHeader\` and \`ledgerLine\` of \`reelreckon/ledger\` read and write it; the
schemas are in \`reelreckon/contract\` (\`ledgerRecord\`).

[harbour-bench.ndjson](harbour-bench.ndjson) is a whole one, with every kind of record in it. Its people,
makers and printers are invented. Some of its lines:

\`\`\`json
${exampleLines()}
\`\`\`

## Header

${headerTable()}

A header may come again further on, so that ledgers can be put one after another.

## Lines

- Lines end in LF or CR LF. Blank lines and a byte order mark are passed over.
- Keys carry their unit: \`_g\` grams, \`_mm\` millimetres, \`_c\` °C, \`_g_per_cm3\`, \`_g_per_m\`. \`{value, u}\` is a value
  with its standard uncertainty (k = 1) in the unit of its key.
- A key that is not listed here is refused by its name, and so is a value that can not be; the refusal has
  the number of the line.
- Records may refer to others that come later. Facts stand in the order in which they were written down.

## What changes, and when

- A fact never changes. A fact with the same id and the same content is passed over, so that reading a
  file twice does no harm; another fact under an id that is taken is refused.
- \`put-right\` says that a fact does not hold, and which one does instead. It can itself be put right: what
  it voided then holds again, and what was written down together with it (same \`recorded_at\`) to hold
  instead falls with it.
- Of catalogue rows and prints with the same id the one changed last (\`changed_at\`) holds.
- A waiting print (\`waiting\`) waits while \`copies\` is more than \`done\` and it is not \`off\`. A finished print
  that is recorded raises \`done\` of the most urgent row of the same print in the same transaction; to put that
  draw right does not lower it again.
- A print that was started (\`running\`) runs until its row has \`ended\`, or a fact has its id. A draw of its id that
  is recorded ends it in the same transaction, and so does another of the same print on the same printer and
  from the same reels where only one such print runs; to put that draw right does not make it run again. The
  estimate does not read it: what it takes comes off its reels with the draw.
- \`at\` may be rough. Facts dated before their reel was \`opened\` are taken at its opening, right after it,
  in their own order; a new one dated more than a day before it is refused. Of facts of one
  moment the one written down first comes first.
- Ids are made of 2 to 9 and the capitals without I, L and O; the last symbol checks the others, so that
  one misread symbol, or two exchanged, is found.

## Facts

Every fact has:

${sections(facts)}
## Catalogue rows

Every row has:

${sections(rows)}
## Prints

${prints.map((schema) => `### ${kindOf(schema)}\n\n${schema.description}\n\n${schemaTable(only(schema, (key) => key !== 'kind'))}\n`).join('\n')}
## Parts

${textParts()}

${ofRows.map((name) => `### ${name}\n\n${schemaTable(parts[name] ?? {})}\n`).join('\n')}
## Priors

What the row \`priors\` can change, and what stands where it does not. A value is above 0 where the usual one
is, but for \`startAllowance\`, \`tail\` and \`leastWater\`, which may be 0; an uncertainty is above 0 where the
usual one is.

${priorTable()}

## As tables

The ledger can be written as tables for a spreadsheet (\`ledgerTables\`): \`reels\`, \`facts\`, \`makes\`, \`printers\`,
\`scales\`, \`people\`, \`materials\`, \`slate\`, \`running\`, \`prints\`. Tables are for reading: they are not read back as a ledger. A text
that begins with \`=\`, \`+\`, \`-\`, \`@\`, a tab or a carriage return has an apostrophe before it, so that no
spreadsheet takes it for a formula; numbers are left as they are.
`

if (import.meta.main) writeFileSync(page, ledgerPage())
