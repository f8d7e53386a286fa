// Writes docs/json.md from the wire schemas: node scripts/json-docs.ts
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { z } from 'zod'
import {
  checkJson,
  errorJson,
  importJson,
  keptJson,
  readPrintJson,
  reelListJson,
  reelShowJson,
  shelfCheckJson,
} from '../src/contract/index.ts'
import { markdownTable } from './markdown-table.ts'

const page = fileURLToPath(new URL('../docs/json.md', import.meta.url))

/** What is used here of JSON Schema. */
interface Schema {
  readonly type?: string | readonly string[]
  readonly description?: string
  readonly enum?: readonly string[]
  readonly anyOf?: readonly Schema[]
  readonly items?: Schema
  readonly properties?: Readonly<Record<string, Schema>>
  readonly $ref?: string
  readonly $defs?: Readonly<Record<string, Schema>>
}

/** The schema without the alternative null, and whether there was one. */
const solid = (schema: Schema): readonly [schema: Schema, nullable: boolean] => {
  const others = schema.anyOf?.filter(({ type }) => type !== 'null')
  const [one] = others ?? []
  return others?.length === 1 && one !== undefined
    ? [
        { ...one, ...(schema.description !== undefined && { description: schema.description }) },
        true,
      ]
    : [schema, false]
}

const nameOfRef = ({ $ref }: Schema): string | undefined => $ref?.split('/').at(-1)

const kindOf = (schema: Schema): string => {
  const ref = nameOfRef(schema)
  if (ref === 'row_id' || ref === 'fact_id' || ref === 'moment') return 'string'
  if (ref !== undefined) return ref === 'measured' ? '`{value, u}`' : `[${ref}](#${ref})`
  if (schema.enum !== undefined) return schema.enum.map((each) => `\`${each}\``).join(', ')
  if (schema.type === 'array') return `list of ${kindOf(schema.items ?? {})}`
  return [schema.type ?? 'anything'].flat().join(' or ')
}

/** A row for each key, those of nested objects included. */
function* rows(schema: Schema, path = ''): Generator<readonly string[], void> {
  for (const [key, part] of Object.entries(schema.properties ?? {})) {
    const [inner, nullable] = solid(part)
    const name = `${path}${key}`
    const kind = `${kindOf(inner)}${nullable ? ' or null' : ''}`
    yield [`\`${name}\``, kind, part.description ?? inner.description ?? '']
    if (inner.$ref !== undefined) continue
    if (inner.type === 'object') yield* rows(inner, `${name}.`)
    else if (inner.items?.properties !== undefined) yield* rows(inner.items, `${name}[].`)
  }
}

const table = (schema: Schema): string => markdownTable(['key', 'kind', 'what'], [...rows(schema)])

/** The schema as JSON Schema, with what it refers to by name. */
const schemaOf = (schema: z.ZodType): Schema => {
  const whole = z.toJSONSchema(schema) as Schema
  const name = nameOfRef(whole)
  return name === undefined ? whole : { ...whole.$defs?.[name], ...whole }
}

/** The schema less what another has in the same words. */
const beside = (schema: Schema, other: Schema | undefined): Schema => ({
  ...schema,
  properties: Object.fromEntries(
    Object.entries(schema.properties ?? {}).filter(
      ([key, { description }]) => other?.properties?.[key]?.description !== description,
    ),
  ),
})

/** docs/json.md as the schemas have it. */
export const jsonPage = (): string => {
  const read = schemaOf(readPrintJson)
  const check = schemaOf(checkJson)
  const shelf = schemaOf(shelfCheckJson)
  const list = schemaOf(reelListJson)
  const show = schemaOf(reelShowJson)
  const shared = Object.entries({
    ...read.$defs,
    ...check.$defs,
    ...shelf.$defs,
    ...list.$defs,
    ...show.$defs,
  }).filter(([name]) => !['measured', 'print', 'row_id', 'fact_id', 'moment'].includes(name))
  return `# What \`--json\` writes

<!-- Written by scripts/json-docs.ts from src/contract/. -->

One JSON object on standard output. Every key is always there unless it says otherwise; what is not known
is null. Keys carry
their unit: \`_g\` grams, \`_mm\` millimetres of filament or of height, \`_mm2\`, \`_mm3\`, \`_g_per_m\`, \`_min\`
minutes; \`share\`, \`chance\` and \`weight\` are parts of one. \`{value, u}\` is a value with its standard
uncertainty (k = 1) in the unit of its key. Bytes and lines are those of the machine code, unpacked.

The same schemas are exported as \`reelreckon/contract\` (\`readJson\`, \`checkJson\`, \`shelfCheckJson\`, …).

## reelreckon read --json

One print is the object below. Several, from several files or several members of a zip, are
\`{"prints": [ … ]}\` with one such object for each.

${table(read)}

## reelreckon check --json

The figures at the top are those of the tool most likely to run dry; \`verdict\` and \`chance\` at the top
are of the whole print; \`tools\` has each tool by itself. Beside every key of
[tool_check](#tool_check):

${table(beside(check, check.$defs?.['tool_check']))}

Where no reel is told it writes what the whole shelf answers:

${table(shelf)}

## reelreckon reel list --json

${table(list)}

## reelreckon reel show --json

${table(show)}

## reelreckon backup, restore and export FILE --json

${table(schemaOf(keptJson))}

## reelreckon import --json

${table(schemaOf(importJson))}

## Errors

With exit code 2 (wrong usage), 3 (unreadable input) or 4 (the ledger can not be read or written):

${table(schemaOf(errorJson))}

## Parts
${shared.map(([name, schema]) => `\n### ${name}\n\n${table(schema)}\n`).join('')}`
}

if (import.meta.main) writeFileSync(page, jsonPage())
