import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Api } from '../../src/app/api/api.ts'
import { asksToLogIn, OutOfTouch, ProblemFault } from '../../src/app/api/problem-fault.ts'
import { apiOffline } from '../../src/app/offline/api-offline.ts'
import { WaitingWeighings, WaitsHere } from '../../src/app/offline/waiting-weighings.ts'

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
