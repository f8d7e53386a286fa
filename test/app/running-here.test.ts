import { beforeEach, expect, test, vi } from 'vitest'
import type { RunningChangeRequest, RunningRequest } from '../../src/contract/index.ts'
import { runningRequest } from '../../src/contract/index.ts'

type Here = typeof import('../../src/app/running/running-here.ts')

const storage = new Map<string, string>()
let isFull = false
vi.stubGlobal('localStorage', {
  getItem: (key: string) => storage.get(key) ?? null,
  setItem: (key: string, value: string) => {
    if (isFull) throw new Error('quota')
    storage.set(key, value)
  },
})

beforeEach(() => {
  storage.clear()
  storage.set('reelreckon-ledger', 'ours')
  isFull = false
})

/** A server that knows what it was told. */
const server = () => {
  const starts: RunningRequest[] = []
  const changes: (readonly [string, RunningChangeRequest])[] = []
  const state: { fault: Error | null; meanwhile: () => void } = {
    fault: null,
    meanwhile: () => undefined,
  }
  const answer = async (id: string, ended?: 'never-ran') => {
    if (state.fault !== null) throw state.fault
    const { print, printer, started_at, reels } = starts.find((one) => one.id === id)!
    const row = { kind: 'running', id, print, printer, started_at, reels }
    return { rows: [{ ...row, ...(ended && { ended }) }] } as never
  }
  return {
    starts,
    changes,
    state,
    api: {
      startRunning: async (told: RunningRequest) => {
        const isNew = starts.every(({ id }) => id !== told.id)
        if (state.fault === null && isNew) starts.push(told)
        state.meanwhile()
        return answer(told.id!)
      },
      changeRunning: async (id: string, told: RunningChangeRequest) => {
        if (state.fault === null) changes.push([id, told])
        return answer(id, told.ended === 'never-ran' ? 'never-ran' : undefined)
      },
    },
  }
}

/** As another page of the browser has it, with its own faults. */
const page = async () => {
  vi.resetModules()
  const here: Here = await import('../../src/app/running/running-here.ts')
  const { runningShown } = await import('../../src/app/running/running-print.ts')
  const faults = await import('../../src/app/api/problem-fault.ts')
  const refusal = (code: string, status = 400): Error =>
    new faults.ProblemFault({ type: 'about:blank', title: '', status, code, detail: code })
  return { ...here, runningShown, refusal, outOfTouch: new faults.OutOfTouch('gone') }
}

const draw = '94Y7AQJ6D'
const other = 'TMCWQ5VN5'

const print = (id: string, hash = 'ab'.repeat(32)) => ({
  draw: id,
  print: hash,
  file: 'knob.gcode',
  started_at: '2026-03-01T12:00:00.000Z',
  reels: [{ tool: 0, reel: 'QX5BN' }],
  printer: 'VP7BP',
  layers: { spiral: false, height_mm: [0.2], share: [1] },
  picture: null,
})

const waiting = (): readonly string[] =>
  JSON.parse(storage.get('reelreckon-running') ?? '[]').map((one: { draw: string }) => one.draw)
const nothing = (): void => undefined
const took_over = { tool: 0, reel: 'P3QX6', after_layer: 17, ran_dry: true }

test('what one page keeps or forgets, another does not undo', async () => {
  const one = await page()
  const two = await page()
  one.startHere(print('A'))
  two.startHere(print('B'))
  expect(waiting()).toEqual(['A', 'B'])
  one.endHere('A')
  two.startHere(print('C'))
  expect(waiting()).toEqual(['B', 'C'])
  // Nothing is drawn anew while nothing changed.
  expect(one.runningHere()).toBe(one.runningHere())
})

test('where the browser keeps nothing, it holds until the page is left', async () => {
  const one = await page()
  isFull = true
  one.startHere(print('A'))
  expect(one.isRunningKept()).toBe(false)
  expect(waiting()).toEqual([])
  expect(one.runningHere().starts.map((each) => each.draw)).toEqual(['A'])
  one.endHere('A')
  isFull = false
  one.startHere(print('C'))
  expect(waiting()).toEqual(['C'])
  expect(one.isRunningKept()).toBe(true)
})

test('a start waits while the server is out of touch, and is sent once, with its id', async () => {
  const one = await page()
  const { api, starts, state } = server()
  state.fault = one.outOfTouch
  one.startHere(print(draw))
  await one.sendRunning(api, nothing)
  expect(waiting()).toEqual([draw])
  expect(one.runningShown({ running: [] }, one.runningHere(), 'ours')).toMatchObject([
    { draw, waits: true },
  ])
  state.fault = null
  const taken: string[] = []
  await Promise.all([
    one.sendRunning(api, ({ id }) => taken.push(id)),
    one.sendRunning(api, nothing),
  ])
  expect(starts.map(({ id }) => id)).toEqual([draw])
  expect(runningRequest.parse(starts[0])).toEqual(starts[0])
  expect(taken).toEqual([draw])
  expect(waiting()).toEqual([])
})

test('what an older version kept is carried over once, its picture stays here', async () => {
  const takes = {
    early_s: 10,
    likely_s: 20,
    late_s: 30,
    early_at: '2026-03-01T12:00:10.000Z',
    likely_at: null,
    late_at: null,
  }
  const old = { ...print(draw), started_at: '2026-03-01T12:00:17.123Z', takes, ledger: 'ours' }
  storage.set('reelreckon-running', JSON.stringify([old, { nonsense: true }]))
  const one = await page()
  const { api, starts } = server()
  await one.sendRunning(api, nothing)
  await one.sendRunning(api, nothing)
  expect(starts).toHaveLength(1)
  expect(runningRequest.parse(starts[0])).toMatchObject({ id: draw, takes: { late_s: 30 } })
  expect(waiting()).toEqual([])
  const row = { ...starts[0]!, kind: 'running', changed_at: '' }
  const known = { row, file: 'knob.gcode', layers: { spiral: false, height_mm: [0.2] } } as never
  expect(one.runningShown({ running: [known] }, one.runningHere(), 'ours')).toMatchObject([
    { draw, waits: false, layers: { share: [1] } },
  ])
})

test('what was started for another ledger waits until that one is shown', async () => {
  const one = await page()
  const { api, starts } = server()
  one.startHere(print(draw))
  storage.set('reelreckon-ledger', 'theirs')
  await one.sendRunning(api, nothing)
  expect(starts).toEqual([])
  expect(one.runningShown({ running: [] }, one.runningHere(), 'theirs')).toEqual([])
  storage.set('reelreckon-ledger', 'ours')
  await one.sendRunning(api, nothing)
  expect(starts).toHaveLength(1)
  one.startHere(print(other))
  one.endHereOf('ours')
  expect(waiting()).toEqual([])
})

test('what the server refuses stays, with why, and keeps nothing else from going', async () => {
  const one = await page()
  const { api, starts, state } = server()
  one.startHere(print(draw))
  state.fault = one.refusal('printer_unknown')
  await one.sendRunning(api, nothing)
  expect(one.whyNot(draw)).toBe('printer_unknown')
  state.fault = null
  one.startHere(print(other))
  await one.sendRunning(api, nothing)
  expect(starts.map(({ id }) => id)).toEqual([other])
  expect(waiting()).toEqual([draw])
  // To log in first is no refusal.
  one.endHere(draw)
  one.startHere(print('A'))
  state.fault = one.refusal('log_in_needed')
  await one.sendRunning(api, nothing)
  expect(one.whyNot('A')).toBe(undefined)
  expect(waiting()).toEqual(['A'])
})

test('a reel that took over is part of a start that waits, and else waits by itself', async () => {
  const one = await page()
  const { api, starts, changes, state } = server()
  state.fault = one.outOfTouch
  one.startHere(print(draw))
  expect(one.changeHere(draw, { took_over })).toBe(null)
  const fed = [
    { tool: 0, reel: 'QX5BN', ran_dry: true },
    { tool: 0, reel: 'P3QX6', after_layer: 17 },
  ]
  state.fault = null
  await one.sendRunning(api, nothing)
  expect(starts[0]!.reels).toEqual(fed)
  expect(changes).toEqual([])

  state.fault = one.outOfTouch
  const next = { tool: 0, reel: 'K7RMY', after_layer: 20 }
  one.changeHere(draw, { took_over: next })
  await one.sendRunning(api, nothing)
  const known = { row: { ...starts[0], kind: 'running' }, file: null, layers: null } as never
  const shown = (): readonly { readonly reels: unknown }[] =>
    one.runningShown({ running: [known] }, one.runningHere(), 'ours')
  expect(shown()).toMatchObject([{ reels: [...fed, next], changes: [{ draw }] }])
  state.fault = one.refusal('change_to_itself')
  await one.sendRunning(api, nothing)
  expect(shown()).toMatchObject([{ reels: fed, changes: [{ asks: 'change_to_itself' }] }])
  one.leaveOut(one.runningHere().changes[0]!.id)
  state.fault = null
  await one.sendRunning(api, nothing)
  expect(changes).toEqual([])
})

test('one that never ran is gone at once; where the server may have it, it is told so', async () => {
  const one = await page()
  const { api, starts, changes, state } = server()
  one.startHere(print(draw))
  one.changeHere(draw, { ended: 'never-ran' })
  await one.sendRunning(api, nothing)
  expect([starts, waiting()]).toEqual([[], []])

  one.startHere(print(other))
  state.meanwhile = () => {
    state.meanwhile = nothing
    one.changeHere(other, { ended: 'never-ran' })
    expect(one.runningShown({ running: [] }, one.runningHere(), 'ours')).toEqual([])
  }
  await one.sendRunning(api, nothing)
  expect(starts.map(({ id }) => id)).toEqual([other])
  expect(changes).toEqual([[other, { ended: 'never-ran' }]])
  expect(one.runningHere()).toMatchObject({ starts: [], changes: [] })
})

test.each([
  ['another reel took over', { took_over }],
  ['it never ran', { ended: 'never-ran' as const }],
])('the server may have a start of which no answer came: then %s is told', async (_, change) => {
  const before = await page()
  const { api, starts, changes, state } = server()
  state.meanwhile = () => {
    state.fault = before.outOfTouch
  }
  before.startHere(print(draw))
  await before.sendRunning(api, nothing)
  expect([starts.length, waiting()]).toEqual([1, [draw]])
  // The page is loaded again.
  const one = await page()
  one.changeHere(draw, change)
  state.meanwhile = nothing
  state.fault = null
  await one.sendRunning(api, nothing)
  expect(starts).toHaveLength(1)
  expect(changes).toEqual([[draw, change]])
  expect(one.runningHere()).toMatchObject({ starts: [], changes: [] })
})

test.each([
  ['busy', 503],
  ['disk_full', 507],
  ['inside', 500],
  ['changed_meanwhile', 409],
])(
  '%s is no refusal: it is sent again, and keeps no other print from going',
  async (code, status) => {
    const one = await page()
    const { api, starts, changes, state } = server()
    one.startHere(print(draw))
    one.startHere(print(other))
    state.meanwhile = () => {
      state.meanwhile = nothing
      one.changeHere(draw, { took_over })
    }
    const { startRunning } = api
    const fault = one.refusal(code, status)
    const failing = {
      ...api,
      startRunning: async (told: RunningRequest) => {
        state.meanwhile()
        if (told.id === draw) throw fault
        return startRunning(told)
      },
    }
    await one.sendRunning(failing, nothing)
    expect(one.whyNot(draw)).toBe(undefined)
    expect([starts.map(({ id }) => id), changes, waiting()]).toEqual([[other], [], [draw]])
    await one.sendRunning(api, nothing)
    expect(starts.map(({ id }) => id)).toEqual([other, draw])
    expect(changes).toEqual([[draw, { took_over }]])
  },
)

test('what was told of a start that is refused meanwhile stays with it, and both are sent again', async () => {
  const one = await page()
  const { api, starts, changes, state } = server()
  one.startHere(print(draw))
  state.fault = one.refusal('reel_unknown')
  state.meanwhile = () => {
    state.meanwhile = nothing
    one.changeHere(draw, { took_over })
  }
  await one.sendRunning(api, nothing)
  expect(one.whyNot(draw)).toBe('reel_unknown')
  state.fault = null
  await one.sendRunning(api, nothing)
  expect(starts).toEqual([])
  one.askAgain(draw)
  await one.sendRunning(api, nothing)
  expect(starts).toMatchObject([
    {
      reels: [
        { reel: 'QX5BN', ran_dry: true },
        { reel: 'P3QX6', after_layer: 17 },
      ],
    },
  ])
  expect(changes).toEqual([])
  // The server does not have what it refused: that it never ran concerns nobody else.
  one.startHere(print(other))
  state.fault = one.refusal('reel_unknown')
  await one.sendRunning(api, nothing)
  one.changeHere(other, { ended: 'never-ran' })
  expect(one.runningHere()).toMatchObject({ starts: [], changes: [] })
})
