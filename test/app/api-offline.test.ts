import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Api } from '../../src/app/api/api.ts'
import { asksToLogIn, OutOfTouch, ProblemFault } from '../../src/app/api/problem-fault.ts'
import { apiOffline } from '../../src/app/offline/api-offline.ts'
import { WaitingWeighings, WaitsHere } from '../../src/app/offline/waiting-weighings.ts'
import type { WeighRequest } from '../../src/contract/index.ts'

type Open = (
  name: string,
  version: number,
  more: { readonly terminated: () => void },
) => Promise<unknown>
const opening = vi.hoisted(() => vi.fn<Open>())
vi.mock('idb', () => ({ openDB: opening }))

/** As much of the browser's store as is asked here. */
const emptyStore = () => {
  const kept = new Map<string, unknown>()
  return {
    kept,
    put: async (_store: string, value: unknown, key = 'one') => void kept.set(key, value),
    get: async (_store: string, key: string) => kept.get(key),
    getAll: async () => [],
    delete: async (_store: string, key: string) => void kept.delete(key),
  }
}

const logInNeeded = new ProblemFault({
  type: 'about:blank',
  title: 'Unauthorized',
  status: 401,
  code: 'log_in_needed',
  detail: 'Log in.',
})

const shelf = { reels: [] }
/** @param fault - of whatever is asked; null: it is answered */
const apiWith = (fault: Error | null): Api => {
  const ask = async () => (fault === null ? shelf : Promise.reject(fault))
  const server = {
    shelf: ask,
    rows: ask,
    weigh: ask,
    logOut: ask,
    running: ask,
    startRunning: ask,
  } as unknown as Api
  return apiOffline(server, new WaitingWeighings(server))
}
const told = { reel: 'QX5BN', weighing: { reading_g: 900 } }

beforeEach(() => {
  opening.mockRejectedValue(new DOMException('no store', 'InvalidStateError'))
})

/** As if the browser had taken the store away. */
const loseStore = (): void => opening.mock.lastCall?.[2].terminated()
afterEach(loseStore)

test('where the browser has no store, what the server answers is shown all the same', async () => {
  expect(await apiWith(null).shelf()).toBe(shelf)
  expect(await apiWith(null).rows('scale')).toBe(shelf)
  expect(await apiWith(null).logOut()).toBe(shelf)
  // What can not wait has failed for the reason that it had.
  const lost = new OutOfTouch('lost')
  await expect(apiWith(lost).shelf()).rejects.toBe(lost)
  await expect(apiWith(lost).weigh(told)).rejects.toBe(lost)
})

test('what ran before a print was started is not told as what runs after it', async () => {
  const store = emptyStore()
  opening.mockResolvedValue(store)
  await apiWith(null).running()
  const lost = new OutOfTouch('lost')
  expect(await apiWith(lost).running()).toBe(shelf)
  await apiWith(null).startRunning({ print: 'ab'.repeat(32), reels: [{ reel: 'QX5BN' }] })
  await expect(apiWith(lost).running()).rejects.toBe(lost)
})

test('a store that could not be opened is opened the next time', async () => {
  const store = emptyStore()
  await apiWith(null).shelf()
  expect(store.kept.size).toBe(0)
  opening.mockResolvedValueOnce(store)
  await apiWith(null).shelf()
  expect(store.kept.size).toBe(1)
  expect(await apiWith(new OutOfTouch()).shelf()).toBe(shelf)
  store.put = () => Promise.reject(new DOMException('full', 'QuotaExceededError'))
  expect(await apiWith(null).shelf()).toBe(shelf)
})

test('a weighing waits where nobody is logged in any more, and where the server is out of touch', async () => {
  for (const fault of [logInNeeded, new OutOfTouch()]) {
    const store = emptyStore()
    loseStore()
    opening.mockResolvedValue(store)
    const api = apiWith(fault)
    // oxlint-disable-next-line no-await-in-loop -- each has the store to itself
    const waits = await api.weigh(told).catch((error: unknown) => error)
    expect(waits).toBeInstanceOf(WaitsHere)
    // By it the page knows that it has to ask.
    expect(asksToLogIn(waits)).toBe(fault === logInNeeded)
    expect([...store.kept.values()]).toMatchObject([{ told }])
    // oxlint-disable-next-line no-await-in-loop -- each has the store to itself
    await expect(api.weigh({ ...told, test: true })).rejects.toBe(fault)
    expect(store.kept.size).toBe(1)
  }
})

/** A store that lists what waits. */
const listingStore = () => {
  const kept = new Map<string, { readonly id: string }>()
  return {
    put: async (_store: string, value: { readonly id: string }) => void kept.set(value.id, value),
    getAll: async () => [...kept.values()],
    delete: async (_store: string, id: string) => void kept.delete(id),
  }
}

const failing = (status: number, code: string): ProblemFault =>
  new ProblemFault({ type: 'about:blank', title: code, status, code, detail: 'Not now.' })

/** Weighings that wait in turn, and a server that does not take those of one reel. */
const sendingTo = async (fault: Error | null) => {
  loseStore()
  opening.mockResolvedValue(listingStore())
  const state = { fault }
  const sent: (string | undefined)[] = []
  const weigh = async ({ reel, make, weighing }: WeighRequest) => {
    sent.push(`${reel ?? make} ${weighing.reading_g}`)
    if (reel === 'QX5BN' && state.fault !== null) throw state.fault
    return { recorded: true, surprise: null }
  }
  const waiting = new WaitingWeighings({ weigh } as unknown as Api)
  const made = [
    { reel: 'QX5BN', weighing: { reading_g: 900 } },
    { reel: 'REYRT', weighing: { reading_g: 400 } },
    { reel: 'QX5BN', weighing: { reading_g: 850 } },
    { make: 'VP7BP', empty: true, weighing: { reading_g: 240 } },
  ]
  for (const [minute, one] of made.entries()) {
    const at = `2026-03-01T12:0${minute}:00.000Z`
    // oxlint-disable-next-line no-await-in-loop -- in the order in which they were made
    await waiting.keep({ ...one, at }, new OutOfTouch())
  }
  return { waiting, sent, state, waits: () => waiting.list().map(({ told: { reel } }) => reel) }
}

test('a weighing that the server fails at holds up none but those of its reel, in their order', async () => {
  const { waiting, sent, state, waits } = await sendingTo(failing(500, 'internal'))
  await waiting.send()
  expect(sent).toEqual(['QX5BN 900', 'REYRT 400', 'VP7BP 240'])
  expect(waits()).toEqual(['QX5BN', 'QX5BN'])
  expect(waiting.list().every(({ asks }) => asks === undefined)).toBe(true)
  await waiting.send()
  expect(sent.slice(3)).toEqual(['QX5BN 900'])
  state.fault = null
  await waiting.send()
  expect(sent.slice(4)).toEqual(['QX5BN 900', 'QX5BN 850'])
  expect(waits()).toEqual([])
})

test.each([
  ['nobody is logged in', logInNeeded],
  ['another ledger is served', failing(409, 'ledger_exchanged')],
  ['the server is out of touch', new OutOfTouch()],
])('where %s none is sent after the first', async (_, fault) => {
  const { waiting, sent, waits } = await sendingTo(fault)
  await waiting.send().catch(() => undefined)
  expect(sent).toEqual(['QX5BN 900'])
  expect(waits()).toHaveLength(4)
})
