// Writes docs/json.md from the wire schemas: node scripts/json-docs.ts
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { ZodType } from 'zod'
import {
  checkJson,
  checksJson,
  errorJson,
  importJson,
  keptJson,
  makeFactsJson,
  matchJson,
  pausedCopyJson,
  priorsJson,
  readPrintJson,
  recordedJson,
  reelListJson,
  reelShowJson,
  rowsJson,
  shelfCheckJson,
  slateJson,
  watchEvents,
} from '../src/contract/index.ts'
import { type Schema, schemaOf, schemaTable } from './schema-table.ts'

const page = fileURLToPath(new URL('../docs/json.md', import.meta.url))

/** The schema less what another has in the same words. */
const beside = (schema: Schema, other: Schema | undefined): Schema => ({
  ...schema,
  properties: Object.fromEntries(
    Object.entries(schema.properties ?? {}).filter(
      ([key, { description }]) => other?.properties?.[key]?.description !== description,
    ),
  ),
})

/** Parts of what the commands of the ledger write, beside its records. */
const ledgerParts = new Set(['reel_change', 'reel_now', 'surprise', 'cause', 'prior'])

/** The schema where its parts stand elsewhere on the page. */
const withoutParts = (schema: ZodType): Schema => {
  const { $defs: _parts, ...own } = schemaOf(schema)
  return own
}

/** docs/json.md as the schemas have it. */
export const jsonPage = (): string => {
  const read = schemaOf(readPrintJson)
  const check = schemaOf(checkJson)
  const recorded = schemaOf(recordedJson)
  const priors = schemaOf(priorsJson)
  const shelf = schemaOf(shelfCheckJson)
  const checks = withoutParts(checksJson)
  const list = schemaOf(reelListJson)
  const show = schemaOf(reelShowJson)
  const paused = schemaOf(pausedCopyJson)
  const slate = schemaOf(slateJson)
  const match = schemaOf(matchJson)
  const ownOfLedger = Object.entries({ ...recorded.$defs, ...priors.$defs }).filter(([name]) =>
    ledgerParts.has(name),
  )
  const shared = [
    ...Object.entries({
      ...read.$defs,
      ...schemaOf(errorJson).$defs,
      ...check.$defs,
      ...shelf.$defs,
      ...list.$defs,
      ...show.$defs,
      ...paused.$defs,
      ...match.$defs,
      waiting_told: slate.$defs!['waiting_told']!,
    }).filter(([name]) => !['measured', 'print', 'row_id', 'fact_id', 'moment'].includes(name)),
    ...ownOfLedger,
  ]
  return `# What \`--json\` writes

<!-- Written by scripts/json-docs.ts from src/contract/. -->

One JSON object on standard output. Every key is always there unless it says otherwise; what is not known
is null. Keys carry
their unit: \`_g\` grams, \`_mm\` millimetres of filament or of height, \`_mm2\`, \`_mm3\`, \`_g_per_m\`, \`_min\`
minutes; \`share\`, \`chance\` and \`weight\` are parts of one. \`{value, u}\` is a value with its standard
uncertainty (k = 1) in the unit of its key. Bytes and lines are those of the machine code, unpacked.

The same schemas are exported as \`reelreckon/contract\` (\`readJson\`, \`checkJson\`, \`recordedJson\`,
\`rowsJson\`, \`priorsJson\`, \`shelfCheckJson\`, \`errorJson\`, …).

## reelreckon read --json

One print is the object below. Several, from several files, a folder, or several members of a zip, are
\`{"prints": [ … ], "errors": [ … ]}\` with one such object for each, in the order asked for, and one
[error](#error) for each file that could not be read.

${schemaTable(read)}

## reelreckon check --json

The figures at the top are those of the tool most likely to run dry; \`verdict\` and \`chance\` at the top
are of the whole print; \`tools\` has each tool by itself. Beside every key of
[tool_check](#tool_check):

${schemaTable(beside(check, check.$defs?.['tool_check']))}

Where no reel is told it writes what the whole shelf answers:

${schemaTable(shelf)}

Of several prints, or a folder, it writes them all; of a shelf the first five reels for each tool:

${schemaTable(checks)}

## reelreckon watch --json

One JSON object a line, as things happen; \`event\` says which. Wrong usage, and a folder that is not there,
are told in words on standard error.
${Object.entries(watchEvents)
  .map(([event, schema]) => `\n### watch: ${event}\n\n${schemaTable(withoutParts(schema))}\n`)
  .join('')}

## reelreckon slate list --json

${schemaTable(slate)}

## reelreckon match --json

${schemaTable(match)}

## reelreckon pause --json

${schemaTable(paused)}

## reelreckon reel list --json

${schemaTable(list)}

## reelreckon reel show --json

${schemaTable(show)}

## reelreckon make show --json

${schemaTable(schemaOf(makeFactsJson))}

## reelreckon backup, restore and export FILE --json

${schemaTable(schemaOf(keptJson))}

## reelreckon import --json

${schemaTable(schemaOf(importJson))}

## The commands that record, --json

What \`reel add\`, \`slate add\`, \`change\`, \`take-off\` and \`put-back\`, \`weigh\`, \`draw\`, \`measure\`, \`trim\`, \`move\`, \`dry\`, \`run-dry\`, \`empty\`,
\`retire\`, \`put-right\`, and \`add\`, \`change\` and \`set\` of what there is beside reels write.
Records stand as in a line of the ledger ([ledger-format.md](ledger-format.md)). A surprising weighing that
was not recorded has \`recorded\` false and exit code 10.

${schemaTable(recorded)}

## The lists of makes, printers, scales, people, materials, --json

${schemaTable(schemaOf(rowsJson))}

## reelreckon priors list --json

${schemaTable(priors)}

## Errors

With exit code 2 (wrong usage), 3 (unreadable input), 4 (the ledger could not be read or written), or 10
where a reel ran dry that was believed to hold more:

${schemaTable(schemaOf(errorJson))}

## Parts

A \`row_id\` is the id of a reel or of a row of the catalogue, a \`fact_id\` that of a fact, a \`moment\` UTC to
the millisecond: see [ledger-format.md](ledger-format.md).
${shared.map(([name, schema]) => `\n### ${name}\n\n${schemaTable(schema)}\n`).join('')}`
}

if (import.meta.main) writeFileSync(page, jsonPage())
