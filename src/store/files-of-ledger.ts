import { realpath } from 'node:fs/promises'
import { basename, dirname } from 'node:path'
import { fileIdentity } from './open-files.ts'

/** What SQLite may put beside a ledger, and takes for that ledger's whenever it finds it. */
export const besideLedger: readonly string[] = ['-wal', '-shm', '-journal']

/**
 * Whether a file is a ledger, or one of the files that belong to it, under whatever name and over
 * whatever link. A name that SQLite would take for the ledger's counts, there or not.
 *
 * @param ledger - its file, there or not
 */
export const isFileOfLedger = async (file: string, ledger: string): Promise<boolean> => {
  // SQLite keeps its log beside the file that a link leads to.
  const real = await realpath(ledger).catch(() => ledger)
  const names = ['', ...besideLedger].map((end) => real + end)
  const [identity, folder, ledgerFolder, ...theirs] = await Promise.all(
    [file, dirname(file), dirname(real), ledger, ...names].map(fileIdentity),
  )
  if (identity !== undefined && theirs.includes(identity)) return true
  return folder === ledgerFolder && names.some((name) => basename(name) === basename(file))
}
