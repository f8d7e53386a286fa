import type { Context } from 'hono'
import { problem } from './problem.ts'
import type { Surroundings } from './surroundings.ts'

const types: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  json: 'application/json',
  webmanifest: 'application/manifest+json',
  wasm: 'application/wasm',
  svg: 'image/svg+xml',
  png: 'image/png',
  ico: 'image/x-icon',
  woff2: 'font/woff2',
  map: 'application/json',
  txt: 'text/plain; charset=utf-8',
  // Prints of the demo bench.
  gcode: 'text/plain; charset=utf-8',
}

/** A name with a hash of its content in it is the same file for ever. */
const isHashed = (path: string): boolean =>
  /[-.][A-Za-z0-9_-]{8,}\.[a-z0-9]+$/.test(path) && path.startsWith('/assets/')

const notBuilt = `<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Reelreckon</title>
<h1>Reelreckon</h1>
<p>The server runs; the app has not been built here. What it can do stands at <a href="/api">/api</a>.</p>
</html>
`

const fileNameOf = (path: string): string | undefined => {
  // What can not be decoded, and what climbs out of the folder, is no file of the app.
  try {
    const whole = decodeURIComponent(path)
    return /(^|\/)\.|[\\\0]/.test(whole) ? undefined : whole
  } catch {
    return undefined
  }
}

/** A file of the app; of a page of the app, which has no file, the app itself. */
export const appFile = async (
  { file }: Pick<Surroundings, 'file'>,
  context: Context,
): Promise<Response> => {
  const name = fileNameOf(new URL(context.req.url).pathname)
  const ending = name === undefined ? undefined : /\.([a-z0-9]+)$/i.exec(name)?.[1]?.toLowerCase()
  if (name !== undefined && ending !== undefined && types[ending] !== undefined) {
    const bytes = await file(name)
    if (bytes !== undefined) {
      const kept = isHashed(name) ? 'public, max-age=31536000, immutable' : 'no-cache'
      return new Response(bytes, {
        headers: { 'content-type': types[ending], 'cache-control': kept },
      })
    }
  }
  if (name === undefined || ending !== undefined) {
    return problem({ code: 'not_found', message: 'There is no such file.' })
  }
  const index = await file('/index.html')
  return new Response(index ?? notBuilt, {
    headers: { 'content-type': types['html']!, 'cache-control': 'no-cache' },
  })
}
