import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { followChanges, type Touch } from '../../src/app/api/follow-changes.ts'
import { joinedApi } from '../../src/app/api/joined-api.ts'

const change = JSON.stringify({ ledger_id: 'one', ledger: 1, revision: 7 })

class Source extends EventTarget {
  static all: Source[] = []
  isClosed = false
  constructor() {
    super()
    Source.all.push(this)
  }
  close(): void {
    this.isClosed = true
  }
  says(type: string, data = ''): void {
    this.dispatchEvent(new MessageEvent(type, { data }))
  }
}

const last = (): Source => {
  const source = Source.all.at(-1)
  if (source === undefined) throw new Error('nobody follows')
  return source
}

beforeEach(() => {
  vi.useFakeTimers()
  Source.all = []
  vi.stubGlobal('EventSource', Source)
  vi.stubGlobal('document', Object.assign(new EventTarget(), { hidden: false }))
  vi.stubGlobal('window', new EventTarget())
})

afterEach(() => {
  vi.useRealTimers()
  vi.unstubAllGlobals()
})

const followed = () => {
  const heard: boolean[] = []
  const following = followChanges((touch: Touch) => heard.push(touch.inTouch))
  last().says('change', change)
  return { heard, following }
}

test('a stream that says nothing more is out of touch, and is listened to anew', () => {
  const { heard, following } = followed()
  for (let beats = 0; beats < 8; beats++) {
    vi.advanceTimersByTime(15_000)
    last().says('here', 'still')
  }
  expect(heard).toEqual([true])
  vi.advanceTimersByTime(41_000)
  expect(heard).toEqual([true, false])
  expect(last().isClosed).toBe(true)
  vi.advanceTimersByTime(2000)
  expect(Source.all).toHaveLength(2)
  last().says('change', change)
  expect(heard).toEqual([true, false, true])
  following.stop()
  vi.advanceTimersByTime(600_000)
  expect(heard).toHaveLength(3)
  expect(Source.all).toHaveLength(2)
})

test('one that never begins is given up, and tried anew at once where the network is back', () => {
  const heard: boolean[] = []
  followChanges((touch) => heard.push(touch.inTouch))
  vi.advanceTimersByTime(21_000)
  expect(heard).toEqual([false])
  vi.advanceTimersByTime(2000)
  const hangs = last()
  window.dispatchEvent(new Event('online'))
  expect(hangs.isClosed).toBe(true)
  last().says('change', change)
  expect(heard).toEqual([false, true])
})

test('a request that does not reach the server is out of touch, once, until it is heard again', async () => {
  const asked = vi.fn<() => Promise<Response>>(() => Promise.reject(new TypeError('no network')))
  vi.stubGlobal('fetch', asked)
  const api = joinedApi()
  const heard: boolean[] = []
  const stop = api.follow((touch) => heard.push(touch.inTouch))
  last().says('change', change)
  await expect(api.shelf()).rejects.toThrow('can not be reached')
  expect(heard).toEqual([true, false])
  await expect(api.session()).rejects.toThrow('can not be reached')
  expect(heard).toEqual([true, false])
  vi.advanceTimersByTime(2000)
  last().says('change', change)
  expect(heard).toEqual([true, false, true])
  // What the server refuses reached it.
  asked.mockResolvedValue(new Response('{}', { status: 422 }))
  await expect(api.shelf()).rejects.toThrow()
  expect(heard).toHaveLength(3)
  stop()
})
