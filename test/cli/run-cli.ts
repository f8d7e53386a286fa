import { spawnSync } from 'node:child_process'
import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { harbourLedgerText } from '../../demo/ledger/harbour.ts'
import { demoPrints } from '../../demo/prints/index.ts'

/** What the command left behind. */
export interface CliRun {
  readonly exit: number | null
  readonly out: string
  readonly err: string
}

/** What the package names as its command. */
const main = fileURLToPath(new URL('../../dist/bundle/main.js', import.meta.url))

/** Where no ledger is, unless a test begins one: nobody's own is touched. */
const noLedger = join(mkdtempSync(join(tmpdir(), 'reelreckon-none-')), 'none')

/** Runs the built command as a child process, in a pipe, with UTF-8. */
export const runCli = (
  words: readonly string[],
  more: {
    readonly cwd?: string
    readonly input?: Uint8Array | string
    readonly env?: Readonly<Record<string, string>>
  } = {},
): CliRun => {
  const { PATH = '', HOME = '' } = process.env
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...words], {
    ...(more.cwd !== undefined && { cwd: more.cwd }),
    input: more.input ?? '',
    env: { PATH, HOME, LC_ALL: 'C.UTF-8', REELRECKON_DATA: noLedger, ...more.env },
    encoding: 'utf8',
    maxBuffer: 64 * 2 ** 20,
  })
  return { exit: status, out: stdout, err: stderr }
}

/** A new folder with the demo prints and the bench's ledger in it; the system clears it away. */
export const folderOfPrints = (): string => {
  const folder = mkdtempSync(join(tmpdir(), 'reelreckon-test-'))
  for (const { fileName, write } of demoPrints) writeFileSync(join(folder, fileName), write())
  writeFileSync(join(folder, 'marrowick.ndjson'), harbourLedgerText())
  return folder
}
