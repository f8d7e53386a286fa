// oxlint-disable no-await-in-loop -- one file after another
import { mkdir, rename, rmdir } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { codeOf } from './code-of.ts'
import { besideLedger } from './files-of-ledger.ts'
import { patiently } from './patiently.ts'
import { exists } from './place-file.ts'
import { syncFolder } from './sync-folder.ts'

/**
 * Moves logs that were left where no ledger is under a dated name: SQLite would play them into the
 * next ledger of that name. Does nothing where there is a ledger, whose logs they are.
 *
 * @param now - milliseconds since 1970
 */
export const setAside = async (file: string, now: number): Promise<void> => {
  if ((await leftBeside(file)).length === 0) return
  const lock = `${file}.clearing`
  // Held for milliseconds: one that stays for two seconds was left by a process that was killed.
  await patiently(() => mkdir(lock), isExisting, 2000).catch((error: unknown) => {
    if (!isExisting(error)) throw error
  })
  try {
    // In this order: as long as they are left nobody places a ledger but who has the lock, so that
    // they are nobody's where there is none after they were listed.
    const left = await leftBeside(file)
    if (left.length === 0 || (await exists(file))) return
    const before = await freeName(file, new Date(now))
    for (const end of left) await rename(file + end, before + end)
    await syncFolder(dirname(file))
  } finally {
    await rmdir(lock).catch(() => {})
  }
}

const leftBeside = async (file: string): Promise<readonly string[]> => {
  const left: string[] = []
  for (const end of besideLedger) if (await exists(file + end)) left.push(end)
  return left
}

const isExisting = (error: unknown): boolean => codeOf(error) === 'EEXIST'

/**
 * `ledger-before-2026-03-01T18-30-00.sqlite`, with a number where that is taken, by a ledger or by a
 * log alone.
 */
export const freeName = async (file: string, moment: Date): Promise<string> => {
  const stamp = moment.toISOString().slice(0, 19).replaceAll(':', '-')
  const stem = join(dirname(file), `${basename(file, '.sqlite')}-before-${stamp}`)
  for (let count = 1; ; count++) {
    const name = `${stem}${count === 1 ? '' : `-${count}`}.sqlite`
    const taken = await Promise.all(['', ...besideLedger].map((end) => exists(name + end)))
    if (!taken.includes(true)) return name
  }
}
