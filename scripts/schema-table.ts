import { z } from 'zod'
import { markdownTable } from './markdown-table.ts'

/** What is used here of JSON Schema. */
export interface Schema {
  readonly type?: string | readonly string[]
  readonly description?: string
  readonly const?: string | boolean
  readonly enum?: readonly string[]
  readonly anyOf?: readonly Schema[]
  readonly oneOf?: readonly Schema[]
  readonly items?: Schema
  readonly prefixItems?: readonly Schema[]
  readonly additionalProperties?: Schema | boolean
  readonly required?: readonly string[]
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

/** Parts that are plain text; a page that uses them explains them under one heading. */
const textParts: ReadonlySet<string> = new Set(['row_id', 'fact_id', 'print_id', 'moment', 'words'])

/** Parts of the ledger's records that other pages speak of, too. */
const ofLedger: ReadonlySet<string> = new Set([
  'waiting',
  'waiting_tool',
  'waiting_changes',
  'plan_choice',
  'running',
  'running_reel',
  'running_clock',
  'running_told',
])

const kindOf = (schema: Schema): string => {
  const ref = nameOfRef(schema)
  if (ref !== undefined) {
    if (ref === 'measured') return '`{value, u}`'
    if (ofLedger.has(ref)) return `[${ref}](ledger-format.md#${ref})`
    return textParts.has(ref) ? `[${ref}](#parts)` : `[${ref}](#${ref})`
  }
  if (schema.const !== undefined) return `\`${String(schema.const)}\``
  if (schema.prefixItems !== undefined) return schema.prefixItems.map(kindOf).join(' and ')
  if (typeof schema.additionalProperties === 'object') {
    return `object of ${kindOf(schema.additionalProperties)}`
  }
  // Only records of the ledger come in several shapes, and they have a page of their own.
  if (schema.oneOf !== undefined) return '[record](ledger-format.md)'
  if (schema.enum !== undefined) return schema.enum.map((each) => `\`${each}\``).join(', ')
  if (schema.type === 'array') return `list of ${kindOf(schema.items ?? {})}`
  if (schema.anyOf !== undefined) return [...new Set(schema.anyOf.map(kindOf))].join(' or ')
  return [schema.type ?? 'anything'].flat().join(' or ')
}

/** A row for each key, those of nested objects included. */
function* rows(schema: Schema, path = ''): Generator<readonly string[], void> {
  for (const [key, part] of Object.entries(schema.properties ?? {})) {
    const [inner, nullable] = solid(part)
    const name = `${path}${key}`
    const optional = schema.required?.includes(key) === true ? '' : ', may be left out'
    const kind = `${kindOf(inner)}${nullable ? ' or null' : ''}${optional}`
    yield [`\`${name}\``, kind, part.description ?? inner.description ?? '']
    if (inner.$ref !== undefined) continue
    if (inner.type === 'object') yield* rows(inner, `${name}.`)
    else if (inner.items?.properties !== undefined) yield* rows(inner.items, `${name}[].`)
  }
}

/** The keys of a schema as a Markdown table. */
export const schemaTable = (schema: Schema): string =>
  markdownTable(['key', 'kind', 'what'], [...rows(schema)])

/** The schema as JSON Schema, with what it refers to by name. */
export const schemaOf = (schema: z.ZodType): Schema => {
  const whole = z.toJSONSchema(schema) as Schema
  const name = nameOfRef(whole)
  return name === undefined ? whole : { ...whole.$defs?.[name], ...whole }
}
