import { type Kysely, type Selectable, sql } from 'kysely'
import type { FactJson, LedgerRecord } from '../contract/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { patiently } from './patiently.ts'
import { placeRecords } from './place-records.ts'
import { plainText, textOfPlain } from './plain-text.ts'
import { parsedBody, readFacts, readPrint, readRows } from './read-records.ts'
import { bodyOf } from './record-body.ts'
import type { Appended, PrintHeading, Store } from './store.ts'
import { StoreFault } from './store-fault.ts'
import type { Tables } from './tables.ts'

/** A database with the tables in it, and what a store can not know of it by itself. */
export interface Kept {
  readonly db: Kysely<Tables>
  /** Its name in sentences. */
  readonly where: string
  /** Why it can not be written, if so. */
  readonly readOnly?: Refusal
  /** How long to wait for others who write, ms. */
  readonly patience: number
  /** What an error of the database means; undefined for one that nobody expects. */
  refusalOf(error: unknown): Refusal | undefined
  /** All records as they stand when the first is asked for. */
  snapshot(): AsyncIterable<LedgerRecord>
  close(): Promise<void>
}

/** Ends a transaction that shall leave no trace. */
class TakenBack extends Error {
  readonly outcome: Outcome<Appended>
  constructor(outcome: Outcome<Appended>) {
    super('taken back')
    this.outcome = outcome
  }
}

/** The store over any database with the tables in it. */
export const keepStore = (kept: Kept): Store => {
  const { db, where } = kept

  /** Tries again while somebody else is at work. */
  const again = <T>(work: () => Promise<T>): Promise<T> =>
    patiently(work, (error) => kept.refusalOf(error)?.code === 'busy', kept.patience)

  const reading = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await again(work)
    } catch (error) {
      throw faultOf(error)
    }
  }

  const faultOf = (error: unknown): unknown => {
    if (error instanceof StoreFault) return error
    const refusal = kept.refusalOf(error)
    return refusal === undefined ? error : new StoreFault(refusal, error)
  }

  const headings = () => db.selectFrom('print').select(['id', 'changed_at', 'file', 'bytes'])

  return {
    append: async (records, { ifRevision } = {}) => {
      if (kept.readOnly !== undefined) return refuse(kept.readOnly)
      const bodied = records.map(bodyOf)
      if (bodied.length === 0) return accept({ written: 0, same: 0, older: 0 })
      try {
        return await again(() =>
          db.transaction().execute(async (transaction) => {
            // First, so that writers stand in line and each sees what the one before it wrote.
            await transaction
              .updateTable('revision')
              .set({ value: sql<number>`value + 1` })
              .execute()
            if (ifRevision !== undefined && (await revisionIn(transaction)) !== ifRevision + 1) {
              throw new TakenBack(refuse(changedMeanwhile(where)))
            }
            const outcome = await placeRecords(transaction, bodied)
            if (!outcome.ok || outcome.value.written === 0) throw new TakenBack(outcome)
            if (records.every(({ kind }) => kind === 'print')) await revisionBack(transaction)
            return outcome
          }),
        )
      } catch (error) {
        if (error instanceof TakenBack) return error.outcome
        if (error instanceof StoreFault) return refuse(error.refusal)
        const refusal = kept.refusalOf(error)
        if (refusal === undefined) throw error
        return refuse(refusal)
      }
    },

    catalogue: () => reading(() => readRows(db, where)),

    facts: ({ reel } = {}) => reading(() => readFacts(db, where, reel)),

    fact: (id) =>
      reading(async () => {
        const row = await db
          .selectFrom('fact')
          .select('body')
          .where('id', '=', id)
          .executeTakeFirst()
        return row && parsedBody<FactJson>(row.body, where)
      }),

    print: (id) => reading(() => readPrint(db, where, plainText(id))),

    printHeading: (id) =>
      reading(async () => {
        const row = await headings().where('id', '=', plainText(id)).executeTakeFirst()
        return row && headingOf(row)
      }),

    prints: () =>
      reading(async () => {
        const rows = await headings().orderBy('changed_at', 'desc').orderBy('id').execute()
        return rows.map(headingOf)
      }),

    records: async function* () {
      try {
        yield* kept.snapshot()
      } catch (error) {
        throw faultOf(error)
      }
    },

    revision: () => reading(() => revisionIn(db)),

    ledgerId: () =>
      reading(
        async () => (await db.selectFrom('ledger').select('id').executeTakeFirstOrThrow()).id,
      ),

    close: () => kept.close(),
  }
}

/** What is believed of the shelf does not rest on prints: views made before hold. */
const revisionBack = (transaction: Kysely<Tables>): Promise<unknown> =>
  transaction.updateTable('revision').set({ value: sql<number>`value - 1` }).execute()

const headingOf = (row: Pick<Selectable<Tables['print']>, keyof PrintHeading>): PrintHeading => ({
  id: textOfPlain(row.id),
  changed_at: row.changed_at,
  file: textOfPlain(row.file),
  bytes: Number(row.bytes),
})

const revisionIn = async (db: Kysely<Tables>): Promise<number> => {
  const { value } = await db.selectFrom('revision').select('value').executeTakeFirstOrThrow()
  return Number(value)
}

const changedMeanwhile = (where: string): Refusal => ({
  code: 'changed_meanwhile',
  message: `${where} was written by others since it was looked at. Nothing of this was written; look at it again and try again.`,
})
