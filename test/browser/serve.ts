import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join, normalize } from 'node:path'

const types: Readonly<Record<string, string>> = {
  '.js': 'text/javascript',
  '.html': 'text/html; charset=utf-8',
}

/** What a bundler would do for a worker, which no import map reaches. */
const resolveBare = (code: string): string =>
  code.replaceAll(/(\bfrom\s+)'fflate\/browser'/g, "$1'/node_modules/fflate/esm/browser.js'")

/** A small server of the loopback address. */
export interface Served {
  readonly origin: string
  readonly close: () => void
}

/**
 * Serves the pages given, and from the project's root `dist/` and the files of fflate. Under
 * `/resolved/` the same files come with their bare imports resolved.
 */
export async function serve(pages: Readonly<Record<string, string | Uint8Array>>): Promise<Served> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://127.0.0.1')
    const type = types[extname(pathname)] ?? 'application/octet-stream'
    try {
      const body = pages[pathname] ?? fileBehind(pathname)
      response.writeHead(200, { 'content-type': type }).end(body)
    } catch {
      response.writeHead(404).end()
    }
  })
  await new Promise<void>((ready) => {
    server.listen(0, '127.0.0.1', ready)
  })
  const { port } = server.address() as AddressInfo
  return { origin: `http://127.0.0.1:${port}`, close: () => server.close() }
}

function fileBehind(pathname: string): string {
  const resolved = pathname.startsWith('/resolved/')
  const path = normalize(pathname.replace('/resolved/', '/')).slice(1)
  if (!/^(dist|node_modules[/\\]fflate)[/\\]/.test(path)) throw new Error('not served')
  const code = readFileSync(join(process.cwd(), path), 'utf8')
  return resolved ? resolveBare(code) : code
}
