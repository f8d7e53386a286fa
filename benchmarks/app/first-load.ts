import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'

/** What a browser fetches of the built app, compressed as the server does, bytes. */
export interface FirstLoad {
  /** The page, and every script and style that it names. */
  readonly first: number
  /** Everything that is fetched when a sheet or worker asks for it. */
  readonly later: number
}

/** Reads the build. Called in the project's root. */
export const firstLoad = (): FirstLoad => {
  const folder = 'dist/app'
  const compressed = (path: string): number => gzipSync(readFileSync(join(folder, path))).length
  const page = readFileSync(join(folder, 'index.html'), 'utf8')
  const named = [...page.matchAll(/(?:src|href)="\/(assets\/[^"]+)"/g)].map(([, path]) => path!)
  const assets = readdirSync(join(folder, 'assets')).map((name) => `assets/${name}`)
  const sum = (paths: readonly string[]): number =>
    paths.reduce((total, path) => total + compressed(path), 0)
  return {
    first: sum(['index.html', ...named]),
    later: sum(assets.filter((path) => !named.includes(path))),
  }
}
