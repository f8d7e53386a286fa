// Writes docs/api.md from the OpenAPI document: node scripts/api-docs.ts
import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { type OpenApiOperation, openApi } from '../src/http/index.ts'
import { markdownTable } from './markdown-table.ts'
import { type Schema, schemaTable } from './schema-table.ts'

const page = fileURLToPath(new URL('../docs/api.md', import.meta.url))

const headings: Readonly<Record<string, string>> = {
  reels: 'Reels',
  checks: 'Checks',
  facts: 'Facts',
  catalogue: 'What there is beside reels',
  slate: 'The slate',
  prints: 'Prints',
  ledger: 'The ledger',
  access: 'Logging in',
  server: 'The server',
}

/** Schemas of answers have a page of their own; these are only here. */
const isHere = (name: string): boolean =>
  name.endsWith('_request') ||
  [
    'weighing_told',
    'reel_named',
    'reel_told',
    'mass_told',
    'motion',
    'weighed_told',
    'problem',
    'session',
    'change',
  ].includes(name)

const bodyOf = ({ requestBody }: OpenApiOperation): string => {
  if (requestBody === undefined) return ''
  const name = /"#\/components\/schemas\/([^"]+)"/.exec(JSON.stringify(requestBody.content))?.[1]
  const type = Object.keys(requestBody.content)[0]
  return name !== undefined && isHere(name)
    ? `\nBody: [${name}](#${name}).\n`
    : `\nBody: ${type === 'application/json' ? 'a print as in [ledger-format.md](ledger-format.md)' : `\`${type}\``}.\n`
}

/** What an answer is that is no JSON. */
const answerOf = ({ responses }: OpenApiOperation): string => {
  const { content } = responses['200'] as { readonly content: object }
  const types = Object.keys(content).filter((type) => type !== 'application/json')
  return types.length === 0 ? '' : `\nAnswer: ${types.map((type) => `\`${type}\``).join(' or ')}.\n`
}

/** What a token has to be made for; nothing where the least does, or nobody need log in. */
const tokenOf = ({ security }: OpenApiOperation): string => {
  const [may] = security.flatMap(({ token = [] }) => token)
  return may === undefined || may === 'look' ? '' : ` For a token that may \`${may}\`.`
}

/** docs/api.md as the OpenAPI document has it. */
export const apiPage = (): string => {
  const { paths, components } = openApi()
  const all = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  )
  const sections = Object.entries(headings).map(([tag, heading]) => {
    const told = all
      .filter(({ operation }) => operation.tags.includes(tag))
      .map(({ path, method, operation }) => {
        const rows = operation.parameters
          .filter(({ in: where }) => where !== 'header')
          .map(({ name, in: where, description }) => [`\`${name}\``, where, description])
        const table = rows.length === 0 ? '' : `\n${markdownTable(['name', 'in', 'what'], rows)}\n`
        return `### ${method.toUpperCase()} ${path}\n\n${operation.summary}${tokenOf(operation)}\n${table}${bodyOf(operation)}${answerOf(operation)}`
      })
    return `## ${heading}\n\n${told.join('\n')}`
  })
  const schemas = Object.entries(components.schemas as Readonly<Record<string, Schema>>)
    .filter(([name]) => isHere(name))
    .map(([name, schema]) => {
      const text =
        schema.properties === undefined ? (schema.description ?? '') : schemaTable(schema)
      return `### ${name}\n\n${text}\n`
    })
  const events = (components.schemas as Readonly<Record<string, Schema>>)['event_told']?.oneOf ?? []
  const kinds = events.map(({ properties = {} }) => {
    const { kind, ...more } = properties
    return [
      `\`${String(kind?.const)}\``,
      Object.keys(more)
        .map((key) => `\`${key}\``)
        .join(', '),
    ]
  })
  return `# The API

<!-- Written by scripts/api-docs.ts from the OpenAPI document. -->

\`reelreckon serve\` answers under \`/api\`: JSON in and out, with the keys of [json.md](json.md). A server has
the same as an OpenAPI 3.1 document at \`/api/openapi.json\` and as a page at \`/api\`. \`/healthz\` says that it
runs, \`/readyz\` that its ledger can be read.

- A fact may be posted with an \`id\` of nine symbols made by the client. Posted again with the same id it is
  answered with 200 and counted once; another fact with an id that is there is refused with 409, \`id_taken\`.
- 201 says that something was written down. A weighing that is surprising is answered with 200 and
  \`recorded\` false; post it again with \`accept\` where it is right all the same.
- What can not be answered is told as problem details (RFC 9457), \`application/problem+json\`, with a stable
  \`code\`; see [problem](#problem).
- Where logging in is needed programs send \`Authorization: Bearer TOKEN\`. A token is made for what a
  program does: one that may \`look\` reads everything and asks for checks; one that may \`record\` also
  writes down what happens to reels; one that may \`set_up\` may all that a person may, restore and tokens
  among it. What takes more than a token may is refused with 403, \`token_may_not\`.
- Another ledger may take the place of the one that is served: by a restore, or as the demo shelf. Who sends
  \`Reelreckon-Ledger\`, the \`ledger_id\` that \`/api/changes\` and \`/api/session\` tell, writes to that ledger
  only: where another is served by now, the write is refused with 409, \`ledger_exchanged\`. With \`/\` and the
  number \`ledger\` behind it an older state of the same ledger, put there by a restore, is refused, too. The
  id stays the ledger's own, in its backups as well.
- Whether a file may be cut short stands among the \`findings\` of its reading. A print that was kept does not
  know of it: say \`cut_short\` where it is checked, and do not put it on the slate before a person agrees.
- What is about the machine itself has no address here: \`watch\`, which follows a folder of it,
  \`--ledger FILE\`, and \`serve\` with \`--new-pass-phrase\`, which sets the
  pass-phrase up before anybody can log in.
- How a command shows its answer, and which files of the machine it takes, has no address here either: \`--json\`,
  \`--in-full\`, \`--why\`, \`--notes\`, \`--overwrite\`, \`--subfolders\`, \`--data\`.
- Only pages of the server itself may write. A request that calls the server by a name it does not have is
  refused with 421; one that came through a proxy to a server that asks nobody to log in with 403.

A print file is read by sending it, and then checked by its \`sha256\`:

\`\`\`sh
curl --fail-with-body --data-binary @knob.gcode -H 'Content-Type: application/octet-stream' \\
  'http://localhost:4173/api/prints?file=knob.gcode&keep=true' > knob.json
curl --fail-with-body -H 'Content-Type: application/json' http://localhost:4173/api/checks/shelf \\
  --data "{\\"print\\": \\"$(grep -o '"sha256":"[0-9a-f]*"' knob.json | head -n 1 | cut -d '"' -f 4)\\"}"
\`\`\`

It is drawn by sending it, too:

\`\`\`sh
curl --fail-with-body --data-binary @knob.gcode -H 'Content-Type: application/octet-stream' \\
  'http://localhost:4173/api/pictures?file=knob.gcode&kind=png' > knob.png
\`\`\`

${sections.join('\n')}
## What is sent

${schemas.join('\n')}
### event_told

${markdownTable(['kind', 'may tell'], kinds)}

## Parts

A \`row_id\` is the id of a reel or of a row of the catalogue, a \`fact_id\` that of a fact, a \`moment\` UTC to
the millisecond: see [ledger-format.md](ledger-format.md).
`
}

if (import.meta.main) writeFileSync(page, apiPage())
