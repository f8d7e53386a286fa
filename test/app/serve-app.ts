import { mkdtempSync } from 'node:fs'
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

/**
 * Starts the real thing, as a person would.
 *
 * @param ledger - `bench`: the harbour bench of the demo; `empty`; or a ledger's NDJSON file
 */
export const serveApp = async (
  ledger: string,
  words: readonly string[] = [],
): Promise<ServedApp> => {
  const prints = folderOfPrints()
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-app-test-'))
  if (ledger !== 'empty') {
    const file = ledger === 'bench' ? join(prints, 'marrowick.ndjson') : ledger
    const imported = runCli(['import', file], { env: { REELRECKON_DATA: data } })
    if (imported.exit !== 0) throw new Error(imported.err)
  }
  const { port, end } = await startServe(words, data)
  return { origin: `http://127.0.0.1:${port}`, prints, data, end: () => end() }
}
