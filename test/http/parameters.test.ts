import { expect, test } from 'vitest'
import { problemJson } from '../../src/contract/index.ts'
import { type OpenApiOperation, openApi } from '../../src/http/index.ts'
import { served } from './served.ts'

type Parameter = OpenApiOperation['parameters'][number]

const { paths } = openApi()
const parameters = Object.entries(paths).flatMap(([path, methods]) =>
  Object.values(methods).flatMap(({ operationId, parameters: own }) =>
    own.map((one) => ({ name: `${operationId}, ${one.name}`, path, of: one })),
  ),
)

/** What a person may write as it pleases. */
const freeText = new Set(['file', 'note', 'member'])

const schemaOf = ({ schema, content }: Parameter): Readonly<Record<string, unknown>> =>
  schema ??
  (content as { 'application/json': { schema: Record<string, unknown> } })['application/json']
    .schema

test('every parameter but free text tells more than that it is a string', () => {
  expect(parameters.length).toBeGreaterThan(50)
  const bare = parameters.filter(({ of }) => {
    const { type, description: _, ...more } = schemaOf(of)
    return (type === undefined || type === 'string') && Object.keys(more).length === 0
  })
  expect(bare.filter(({ of }) => !freeText.has(of.name)).map(({ name }) => name)).toEqual([])
  expect(new Set(bare.map(({ of }) => of.name))).toEqual(freeText)
})

test('every name in a path is a parameter of it, and the other way round', () => {
  for (const [path, methods] of Object.entries(paths)) {
    const names = [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name)
    for (const { parameters: own } of Object.values(methods)) {
      expect(own.filter((one) => one.in === 'path').map(({ name }) => name)).toEqual(names)
    }
  }
})

const takes = (id: string): boolean =>
  parameters.some(({ name, of }) => name === `${id}, Reelreckon-Ledger` && of.in === 'header')

test('what writes to a ledger takes the header that says which', () => {
  for (const id of ['weigh', 'addReels', 'restore', 'readPrint', 'importLedger']) {
    expect([id, takes(id)]).toEqual([id, true])
  }
  for (const id of ['listReels', 'checkShelf', 'addToken'])
    expect([id, takes(id)]).toEqual([id, false])
})

test('what watches over a server finds its addresses', async () => {
  const { ask } = await served({ isEmpty: true })
  for (const path of ['/healthz', '/readyz']) {
    expect(paths[path]?.['get']?.security).toEqual([])
    // oxlint-disable-next-line no-await-in-loop -- one after another
    expect(await (await ask('GET', path)).json()).toEqual({ status: 'ok' })
  }
})

/** What no value of a schema is; nothing where any text will do. */
const misfit = (schema: Readonly<Record<string, unknown>>): string | undefined => {
  if (schema['type'] === 'string' && !('enum' in schema) && !('pattern' in schema)) {
    return typeof schema['maxLength'] === 'number' ? 'x'.repeat(schema['maxLength'] + 1) : undefined
  }
  return 'no such thing?'
}

/** What does not fit these is told of by what looks it up. */
const lookedUp = new Set([
  'drawPicture, reel',
  'drawPicture, printer',
  'readPrint, printer',
  'copyWithPauses, printer',
  'tellPauses, printer',
  'listSlate, waiting',
])

const inQuery = parameters.filter(
  ({ name, of }) => of.in === 'query' && !lookedUp.has(name) && misfit(schemaOf(of)) !== undefined,
)

test('there are such in the query', () => expect(inQuery.length).toBeGreaterThan(30))

test('what does not fit the schema of the document is refused, of every parameter', async () => {
  const { ask, store } = await served({ isEmpty: true })
  for (const { name, path, of } of inQuery) {
    const operation = Object.entries(paths[path]!).find(([, one]) =>
      name.startsWith(`${one.operationId}, `),
    )
    const [method, { requestBody }] = operation!
    const [type = 'application/json'] = Object.keys(requestBody?.content ?? {})
    const query = new URLSearchParams({ [of.name]: misfit(schemaOf(of))! })
    // oxlint-disable-next-line no-await-in-loop -- one after another
    const answer = await ask(
      method.toUpperCase(),
      `${path.replace('{reel}', 'K7RMY')}?${query}`,
      requestBody && '',
      requestBody && { 'content-type': type },
    )
    // oxlint-disable-next-line no-await-in-loop -- as above
    const { code, detail } = problemJson.parse(await answer.json())
    expect([name, answer.status]).toEqual([name, 422])
    expect(code).toMatch(/^parameter_invalid$|_malformed$|_unknown$|_out_of_range$/)
    expect(detail).not.toBe('')
  }
  expect(await store.facts()).toEqual([])
})

test('a word that is no yes writes nothing where a rehearsal was meant', async () => {
  const here = await served()
  const lines = await (await here.ask('GET', '/api/export')).text()
  const { ask, store } = await served({ isEmpty: true })
  const type = { 'content-type': 'application/x-ndjson' }
  for (const word of ['1', 'TRUE', 'yes', '']) {
    // oxlint-disable-next-line no-await-in-loop -- one after another: what was written would be seen
    const answer = await ask('POST', `/api/import?dry_run=${word}`, lines, type)
    // oxlint-disable-next-line no-await-in-loop -- as above
    expect(problemJson.parse(await answer.json()).code, word).toBe('parameter_invalid')
    // oxlint-disable-next-line no-await-in-loop -- as above
    expect(await store.facts(), word).toEqual([])
  }
})
