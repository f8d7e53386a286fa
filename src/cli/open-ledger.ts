import { getRandomValues } from 'node:crypto'
import { findRow, type HandedIn } from '../service/index.ts'
import type { Store } from '../store/index.ts'
import type { Outcome, Refusal } from '../units/index.ts'
import { exitCode, Fault, refusedOption, usageFault } from './fault.ts'
import { inCommandWords } from './in-command-words.ts'
import { isLedgerThere, ledgerFolder } from './ledger-folder.ts'
import { openStoreIn } from './open-store.ts'
import { parseMoment } from './parse-moment.ts'

/** What every command of the ledger takes. */
export interface LedgerText {
  readonly json?: boolean
  readonly data?: string
  readonly by?: string
  readonly at?: string
}

/** The ledger, open, and the moment it is about. */
export interface OpenLedger extends HandedIn {
  /** When it happened, where the person said so. */
  readonly at?: string
}

/** Refusals that are about the ledger itself, not about what was asked of it. */
const ofLedger = new Set(['disk_full', 'disk_failed', 'read_only', 'busy', 'damaged'])

/** The value, or the fault in the words of what refused it. @throws Fault */
export const answered = <T>(outcome: Outcome<T>): T => {
  if (outcome.ok) return outcome.value
  throw refusedByLedger(outcome.refusal)
}

/** Surprises, of which nothing was recorded. */
const surprises = new Set([
  'run_dry_surprising',
  'drew_more_than_held',
  'measure_surprising',
  'weighed_since',
])

const exitOf = (code: string): number =>
  surprises.has(code) ? exitCode.surprising : ofLedger.has(code) ? exitCode.ledger : exitCode.usage

/** Wrong usage, or exit code 4 where the ledger could not be read or written. */
export const refusedByLedger = (refusal: Refusal): Fault => {
  const { code, message, expected, received } = refusal
  return new Fault(
    exitOf(code),
    {
      code,
      message: inCommandWords({ code, message, ...(expected !== undefined && { expected }) }),
      expected: expected ?? null,
      received: received ?? null,
    },
    refusal,
  )
}

/**
 * Opens the ledger that the options name, hands it to a command, and closes it, come what may.
 *
 * @throws Fault: exit code 4 where it can not be opened
 */
export const withLedger = async <T>(
  { data, by, at }: LedgerText,
  command: (ledger: OpenLedger) => Promise<T>,
): Promise<T> => {
  const now = Date.now()
  // What was typed wrong is told before anything is opened, or made.
  const moment = at === undefined ? undefined : parseMoment(at, now, '--at')
  const store = await openStore(data)
  try {
    const person = by === undefined ? undefined : await personOf(store, by)
    return await command({
      store,
      now: () => now,
      randomByte,
      ...(person !== undefined && { by: person }),
      ...(moment !== undefined && { at: moment }),
    })
  } catch (error) {
    throw await faultOfStore(error)
  } finally {
    await store.close()
  }
}

/** @throws Fault `no_ledger` where nobody has begun one in the folder meant */
export const needsLedger = async (data: string | undefined): Promise<void> => {
  if (await isLedgerThere(data)) return
  throw usageFault(
    'no_ledger',
    `There is no ledger in ${await ledgerFolder(data)}. Say with --data in which folder yours is; the first reel begins one: reelreckon reel add --help`,
    '--data',
  )
}

/**
 * The same for a command about what is in a ledger already: none is begun for it.
 *
 * @throws Fault as `withLedger`, `needsLedger`
 */
export const withKnownLedger: typeof withLedger = async (typed, command) => {
  await needsLedger(typed.data)
  return withLedger(typed, command)
}

/**
 * The same for a command that writes nothing: where nobody has begun a ledger in the usual place it looks at
 * an empty one. A folder that was named is meant to have one.
 *
 * @throws Fault as `withLedger`, `needsLedger`
 */
export const lookingAtLedger: typeof withLedger = async (typed, command) => {
  if (typed.data !== undefined) await needsLedger(typed.data)
  return beginningNone(typed, command)
}

/**
 * The same for a rehearsal: where there is no ledger none is begun, and the command looks at an empty one.
 *
 * @throws Fault as `withLedger`
 */
export const beginningNone: typeof withLedger = async (typed, command) => {
  if (await isLedgerThere(typed.data)) return withLedger(typed, command)
  const { openMemoryStore } = await import('../store/index.ts')
  const store = answered(await openMemoryStore())
  const now = Date.now()
  try {
    return await command({ store, now: () => now, randomByte })
  } finally {
    await store.close()
  }
}

/** What a store throws where reading fails, as exit code 4. */
const faultOfStore = async (error: unknown): Promise<unknown> => {
  const { StoreFault } = await import('../store/index.ts')
  if (!(error instanceof StoreFault)) return error
  const { code, message } = error.refusal
  return new Fault(exitCode.ledger, { code, message })
}

const openStore = async (data: string | undefined): Promise<Store> => {
  const opened = await openStoreIn(data ?? process.env['REELRECKON_DATA'])
  if (opened.ok) return opened.value
  const { code, message } = opened.refusal
  throw new Fault(exitCode.ledger, { code, message })
}

const personOf = async (store: Store, typed: string): Promise<string> => {
  const found = findRow(await store.catalogue(), 'person', typed)
  if (found.ok) return found.value.id
  throw refusedOption('--by', found.refusal)
}

const randomByte = (): number => getRandomValues(new Uint8Array(1))[0]!
