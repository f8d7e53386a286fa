import { cpSync, mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { folderOfPrints, runCli } from '../cli/run-cli.ts'
import { startServe } from '../cli/start-serve.ts'

/** The built server with the built app, on a ledger of its own. */
export interface ServedApp {
  readonly origin: string
  /** Folder with the demo prints. */
  readonly prints: string
  /** Folder of the ledger, as `--data`. */
  readonly data: string
  readonly end: () => Promise<number | null>
}

const newFolder = (): string => mkdtempSync(join(tmpdir(), 'reelreckon-app-test-'))

// Written once: servers are begun by the dozen.
let prints: string | undefined
const imported = new Map<string, string>()

/** A folder with the ledger in it, to be copied. */
const importedOnce = (ledger: string, folder: string): string => {
  const known = imported.get(ledger)
  if (known !== undefined) return known
  const data = newFolder()
  const file = ledger === 'bench' ? join(folder, 'marrowick.ndjson') : ledger
  const { exit, err } = runCli(['import', file], { env: { REELRECKON_DATA: data } })
  if (exit !== 0) throw new Error(err)
  imported.set(ledger, data)
  return data
}

/**
 * Starts the real thing, as a person would.
 *
 * @param ledger - `bench`: the harbour bench of the demo; `empty`; or a ledger's NDJSON file
 */
export const serveApp = async (
  ledger: string,
  words: readonly string[] = [],
): Promise<ServedApp> => {
  prints ??= folderOfPrints()
  const data = newFolder()
  if (ledger !== 'empty') cpSync(importedOnce(ledger, prints), data, { recursive: true })
  const { port, end } = await startServe(words, data)
  return { origin: `http://127.0.0.1:${port}`, prints, data, end: () => end() }
}
