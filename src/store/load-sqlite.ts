import type SqliteDatabase from 'better-sqlite3'
import { accept, type Outcome, refuse } from '../units/index.ts'

export type Sqlite = typeof SqliteDatabase

/** The first release without the race that could spoil a write-ahead log used by two at once. */
const oldestSqlite = [3, 51, 3] as const

/**
 * SQLite, loaded when it is first needed: on a Node before 22 loading it ends the process.
 *
 * @param node - version of this Node
 * @returns `node_too_old`, `sqlite_missing` (none for this platform), `sqlite_too_old`
 */
export const loadSqlite = async (
  node: string = process.versions.node,
): Promise<Outcome<Sqlite>> => {
  if (Number.parseInt(node, 10) < 22) {
    return refuse({
      code: 'node_too_old',
      message: `The ledger needs Node 22 or newer, and this is Node ${node}. Install a newer Node; commands that use no ledger work on this one.`,
      expected: '22',
      received: node,
    })
  }
  try {
    const { default: sqlite } = await import('better-sqlite3')
    const asked = new sqlite(':memory:')
    const version = asked.prepare('select sqlite_version()').pluck().get() as string
    asked.close()
    return atLeast(version, oldestSqlite) ? accept(sqlite) : tooOld(version)
  } catch (error) {
    return refuse({
      code: 'sqlite_missing',
      message: `The ledger needs SQLite, and better-sqlite3 does not load on this machine (${String(error)}). Install Reelreckon again with npm, on a platform that better-sqlite3 is made for.`,
    })
  }
}

/** True when a version is not before another; parts that are not there count as 0. */
export const atLeast = (version: string, least: readonly number[]): boolean => {
  const parts = version.split('.').map(Number)
  for (const [place, want] of least.entries()) {
    const part = parts[place] ?? 0
    if (part !== want) return part > want
  }
  return true
}

const tooOld = (version: string): Outcome<never> =>
  refuse({
    code: 'sqlite_too_old',
    message: `The ledger needs SQLite ${oldestSqlite.join('.')} or newer, and better-sqlite3 brought ${version}, which can spoil a file that two programs write. Update better-sqlite3.`,
    expected: oldestSqlite.join('.'),
    received: version,
  })
