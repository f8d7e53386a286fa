import { z } from 'zod'
import { changeJson, type MayJson, problemJson } from '../contract/index.ts'
import { type Endpoint, isForOneLedger, meantLedger } from './endpoint.ts'
import { endpoints } from './endpoints.ts'
import type { Parameter } from './parameter.ts'
import { mayFor } from './who-may.ts'

type Json = Readonly<Record<string, unknown>>

/** One way to be let in. @see OpenAPI Specification 3.1.1, 4.8.30 */
export interface SecurityTold {
  readonly session?: readonly []
  readonly token?: readonly MayJson[]
}

/** A part of an OpenAPI document that this project reads again. */
export interface OpenApiOperation {
  readonly operationId: string
  readonly tags: readonly string[]
  readonly summary: string
  readonly parameters: readonly {
    readonly name: string
    readonly in: 'path' | 'query' | 'header'
    readonly required: boolean
    readonly description: string
    /** Of the value as it stands there; of what is written as JSON it is in `content`. */
    readonly schema?: Json
    readonly content?: Json
    readonly style?: 'form'
    readonly explode?: false
  }[]
  readonly requestBody?: { readonly required: true; readonly content: Json }
  readonly responses: Json
  /** Empty where nobody need log in; of tokens with what they have to be made for. */
  readonly security: readonly SecurityTold[]
}

/** An OpenAPI document. @see OpenAPI Specification 3.1.1 */
export interface OpenApiDocument {
  readonly openapi: '3.1.1'
  readonly info: Json
  readonly paths: Readonly<Record<string, Readonly<Record<string, OpenApiOperation>>>>
  readonly components: { readonly schemas: Json; readonly securitySchemes: Json }
}

/** Collects named schemas where the document keeps them. */
class Parts {
  readonly schemas: Record<string, unknown> = {}

  of(schema: z.ZodType, io: 'input' | 'output'): Json {
    const {
      $schema: _,
      $defs = {},
      ...whole
    } = z.toJSONSchema(schema, { io }) as Json & {
      readonly $defs?: Json
    }
    for (const [name, part] of Object.entries($defs)) this.schemas[name] = moved(part)
    return moved(whole) as Json
  }
}

const moved = (part: unknown): unknown => {
  if (Array.isArray(part)) return part.map(moved)
  if (typeof part !== 'object' || part === null) return part
  return Object.fromEntries(
    Object.entries(part)
      .filter(([key]) => key !== 'id' || typeof (part as Json)['id'] !== 'string')
      .map(([key, value]) => [
        key,
        key === '$ref' && typeof value === 'string'
          ? value.replace('#/$defs/', '#/components/schemas/')
          : moved(value),
      ]),
  )
}

const contentOf = (
  parts: Parts,
  what: z.ZodType | string | readonly string[],
  io: 'input' | 'output',
): Json => {
  if (what instanceof z.ZodType) return { 'application/json': { schema: parts.of(what, io) } }
  const types = typeof what === 'string' ? [what] : what
  return Object.fromEntries(types.map((type) => [type, { schema: { type: 'string' } }]))
}

const parameter =
  (parts: Parts, where: 'path' | 'query') =>
  ([name, { about, schema, isJson, isRequired }]: [string, Parameter]) => {
    const told = parts.of(schema, 'input')
    return {
      name,
      in: where,
      required: where === 'path' || isRequired === true,
      description: about,
      ...(isJson === true
        ? { content: { 'application/json': { schema: told } } }
        : { schema: told }),
      // Words with commas between them.
      ...(schema instanceof z.ZodArray &&
        isJson !== true &&
        ({ style: 'form', explode: false } as const)),
    }
  }

/** Which ledger is meant, of what writes to one. */
const ledgerHeader = {
  name: meantLedger,
  in: 'header',
  required: false,
  description:
    'the `ledger_id` of the ledger that is meant, or that and the number `ledger` with `/` between them: where another is served by now, nothing is written',
  schema: { type: 'string', pattern: '^[^/]+(?:/[0-9]+)?$' },
} as const

const isUp = z.strictObject({ status: z.literal('ok') }).meta({ id: 'is_up' })

/** Whether the server runs, for whatever watches over it. */
const health = (
  parts: Parts,
  operationId: string,
  summary: string,
  failing: Json = {},
): Readonly<Record<string, OpenApiOperation>> => ({
  get: {
    operationId,
    tags: ['server'],
    summary,
    parameters: [],
    security: [],
    responses: {
      200: {
        description: 'It is so.',
        content: { 'application/json': { schema: parts.of(isUp, 'output') } },
      },
      ...failing,
    },
  },
})

const problemTold = (description: string): Json => ({
  description,
  content: {
    'application/problem+json': { schema: { $ref: '#/components/schemas/problem' } },
  },
})

const operationOf = (parts: Parts, endpointTold: Endpoint): OpenApiOperation => {
  const { id, tag, summary, params = {}, query = {}, body, answer, writes, open } = endpointTold
  const content = contentOf(parts, answer, 'output')
  return {
    operationId: id,
    tags: [tag],
    summary,
    parameters: [
      ...Object.entries(params).map(parameter(parts, 'path')),
      ...Object.entries(query).map(parameter(parts, 'query')),
      ...(isForOneLedger(endpointTold) ? [ledgerHeader] : []),
    ],
    ...(body !== undefined && {
      requestBody: { required: true as const, content: contentOf(parts, body, 'input') },
    }),
    responses: {
      200: { description: writes ? 'Answered; nothing new was written down.' : 'Done.', content },
      ...(writes && { 201: { description: 'Written down.', content } }),
      default: problemTold('Why there is no answer.'),
    },
    // By 3.1 a scheme that is no OAuth may name roles: what the token has to be made for.
    security: open ? [] : [{ session: [] }, { token: [mayFor(endpointTold)] }],
  }
}

/** The API as an OpenAPI document, made from the same table as its routes. */
export const openApi = (): OpenApiDocument => {
  const parts = new Parts()
  parts.of(z.array(problemJson), 'output')
  const paths: Record<string, Record<string, OpenApiOperation>> = {}
  for (const each of endpoints) {
    const path = (paths[each.path] ??= {})
    path[each.method] = operationOf(parts, each)
  }
  paths['/api/changes'] = {
    get: {
      operationId: 'listenToChanges',
      tags: ['ledger'],
      summary:
        'Server-sent events: `change` now and whenever something was written; `here`, which tells nothing, when 15 s went by without.',
      parameters: [],
      security: [{ session: [] }, { token: ['look'] }],
      responses: {
        200: {
          description: 'The data of each `change`.',
          content: { 'text/event-stream': { schema: parts.of(changeJson, 'output') } },
        },
      },
    },
  }
  paths['/healthz'] = health(parts, 'isRunning', 'Says that the server runs.')
  paths['/readyz'] = health(parts, 'isReady', 'Says that its ledger can be read.', {
    503: problemTold('It can not be read for now.'),
  })
  return {
    openapi: '3.1.1',
    info: {
      title: 'Reelreckon',
      version: '0.1.0',
      summary: 'Will this part-used reel finish this print?',
      license: { name: 'MIT', identifier: 'MIT' },
    },
    paths,
    components: {
      schemas: parts.schemas,
      securitySchemes: {
        session: { type: 'apiKey', in: 'cookie', name: 'reelreckon' },
        token: { type: 'http', scheme: 'bearer' },
      },
    },
  }
}
