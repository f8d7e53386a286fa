import { type Kysely, sql } from 'kysely'
import { accept, type Outcome, refuse } from '../units/index.ts'
import type { Flavour } from './flavour.ts'
import { type Migration, migrations } from './migrations.ts'
import type { Tables } from './tables.ts'

/** What is between the tables of a database and those this version knows. */
export interface MigrationsLeft {
  readonly pending: readonly Migration[]
  /** Run by a newer version. */
  readonly unknown: readonly string[]
}

export const migrationsLeft = (
  run: readonly string[],
  known: readonly Migration[] = migrations,
): MigrationsLeft => ({
  pending: known.filter(({ name }) => !run.includes(name)),
  unknown: run.filter((name) => known.every((one) => one.name !== name)),
})

/**
 * Brings the tables to what this version knows, all steps in one transaction. Several processes may
 * do so at once: one does the work, the others wait and find it done.
 *
 * @param where - the database's name in sentences
 * @returns `newer_ledger` where a newer version was at work, and then nothing is changed
 */
export const migrate = async (
  db: Kysely<Tables>,
  flavour: Flavour,
  where: string,
  known: readonly Migration[] = migrations,
): Promise<Outcome<void>> =>
  db.transaction().execute(async (transaction) => {
    await flavour.lockMigrations(transaction)
    const rows = await transaction.selectFrom('migration').select('name').execute()
    const { pending, unknown } = migrationsLeft(
      rows.map(({ name }) => name),
      known,
    )
    if (unknown.length > 0) return newerLedger(where, unknown)
    for (const { name, statements } of pending) {
      for (const statement of statements(flavour)) {
        // oxlint-disable-next-line no-await-in-loop -- each may need the tables of those before it
        await sql.raw(statement).execute(transaction)
      }
      // oxlint-disable-next-line no-await-in-loop -- migrations build on those before them
      await transaction.insertInto('migration').values({ name }).execute()
    }
    return accept(undefined)
  })

export const newerLedger = (where: string, unknown: readonly string[]): Outcome<never> =>
  refuse({
    code: 'newer_ledger',
    message: `${where} was written by a newer version of Reelreckon than this one. Update Reelreckon, or open a backup made before.`,
    received: unknown.join(', '),
  })
