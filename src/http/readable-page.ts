import type { OpenApiDocument } from './openapi.ts'

const marks: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

const plain = (text: string): string => text.replaceAll(/[&<>"']/g, (mark) => marks[mark] ?? mark)

const schemaName = (content: unknown): string =>
  /"#\/components\/schemas\/([^"]+)"/.exec(JSON.stringify(content) ?? '')?.[1] ?? ''

/** The style of the page; apart, because nothing may stand in the page itself. */
export const readablePageStyle = `:root { color-scheme: light dark; font: 1rem/1.5 system-ui, sans-serif }
body { max-width: 50rem; margin: 2rem auto; padding: 0 1rem }
h2 { margin-top: 2.5rem } h3 { font: 600 1rem/1.5 ui-monospace, monospace; margin-bottom: 0 }
p { margin: .25rem 0 } dl { margin: .25rem 0 .25rem 1rem } dt { font-family: ui-monospace, monospace }
pre { overflow-x: auto; font-size: .85rem; padding: .75rem; border: 1px solid GrayText }
`

/** The OpenAPI document for people: plain HTML. */
export const readablePage = ({ paths, components, info }: OpenApiDocument): string => {
  const operations = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  )
  const tags = [...new Set(operations.flatMap(({ operation }) => operation.tags))]
  const sections = tags.map((tag) => {
    const own = operations.filter(({ operation }) => operation.tags.includes(tag))
    const told = own.map(({ path, method, operation }) => {
      const { summary, parameters, requestBody, security } = operation
      const [may] = security.flatMap(({ token = [] }) => token)
      const takes = may === undefined ? '' : ` For a token that may <code>${plain(may)}</code>.`
      const names = parameters
        .map(({ name, description }) => `<dt>${plain(name)}</dt><dd>${plain(description)}</dd>`)
        .join('')
      const body = requestBody === undefined ? '' : schemaName(requestBody.content)
      const kinds = Object.keys(requestBody?.content ?? {}).join(', ')
      const sent =
        requestBody === undefined
          ? ''
          : `<p>Body: ${plain(kinds)}${body === '' ? '' : `, <a href="#${plain(body)}">${plain(body)}</a>`}</p>`
      return `<h3>${method.toUpperCase()} ${plain(path)}</h3><p>${plain(summary)}${takes}</p>${names === '' ? '' : `<dl>${names}</dl>`}${sent}`
    })
    return `<section><h2>${plain(tag)}</h2>${told.join('\n')}</section>`
  })
  const schemas = Object.entries(components.schemas).map(
    ([name, schema]) =>
      `<h3 id="${plain(name)}">${plain(name)}</h3><pre>${plain(JSON.stringify(schema, null, 1))}</pre>`,
  )
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${plain(String(info['title']))}: API</title><link rel="stylesheet" href="/api/page.css"></head>
<body><main>
<h1>${plain(String(info['title']))}: API</h1>
<p>${plain(String(info['summary']))} The same for programs: <a href="/api/openapi.json">openapi.json</a>.
Problems are told as <code>application/problem+json</code> with a stable <code>code</code>.</p>
${sections.join('\n')}
<section><h2>Schemas</h2>${schemas.join('\n')}</section>
</main></body></html>
`
}
