import { type Kysely, sql } from 'kysely'
import type { Tables } from './tables.ts'

/** Where the two databases want different words. */
export interface Flavour {
  /** Types of columns. `text` is ordered by its bytes. */
  readonly text: string
  readonly whole: string
  readonly packed: string
  /** An expression that gives 32 hexadecimal digits, others each time. */
  readonly randomId: string
  /** What stands after the brackets of a table. */
  readonly table: string
  /** Statements after which the database itself refuses to change or delete a row of `fact`. */
  readonly factsStay: readonly string[]
  /** Keeps everybody else from migrating until the transaction ends. */
  lockMigrations(transaction: Kysely<Tables>): Promise<void>
}

export const sqliteFlavour: Flavour = {
  text: 'text',
  whole: 'integer',
  packed: 'blob',
  randomId: 'lower(hex(randomblob(16)))',
  table: ' strict',
  factsStay: [
    "create trigger fact_not_changed before update on fact begin select raise(abort, 'facts are never changed'); end",
    "create trigger fact_not_deleted before delete on fact begin select raise(abort, 'facts are never deleted'); end",
    // `insert or replace` deletes what is in its way without asking the trigger above.
    `create trigger fact_not_replaced before insert on fact
     when exists (select 1 from fact where id = new.id or sequence = new.sequence)
     begin select raise(abort, 'facts are never replaced'); end`,
  ],
  // The first statement of a transaction decides: one that writes takes the lock, rows or not.
  lockMigrations: async (transaction) => {
    await sql`create table if not exists migration (name text not null primary key) strict`.execute(
      transaction,
    )
    await sql`delete from migration where name = ''`.execute(transaction)
  },
}

export const postgresFlavour: Flavour = {
  text: 'text collate "C"',
  whole: 'bigint',
  packed: 'bytea',
  randomId: "replace(gen_random_uuid()::text, '-', '')",
  table: '',
  factsStay: [
    `create function fact_stays() returns trigger language plpgsql as
     $$ begin raise exception 'facts are never changed or deleted'; end $$`,
    `create trigger fact_not_changed before update or delete on fact
     for each row execute function fact_stays()`,
    `create trigger fact_not_truncated before truncate on fact
     for each statement execute function fact_stays()`,
  ],
  lockMigrations: async (transaction) => {
    // Any number will do that nobody else takes: the letters of `Reel`.
    await sql`select pg_advisory_xact_lock(${sql.lit(0x5265656c)})`.execute(transaction)
    await sql`create table if not exists migration (name text not null primary key)`.execute(
      transaction,
    )
  },
}
