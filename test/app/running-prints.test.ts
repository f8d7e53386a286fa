import { beforeEach, expect, test, vi } from 'vitest'

type RunningPrints = typeof import('../../src/app/running/running-prints.ts')

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
  isFull = false
})

/** As another page of the browser has it. */
const page = async (): Promise<RunningPrints> => {
  vi.resetModules()
  return import('../../src/app/running/running-prints.ts')
}

const print = (draw: string) => ({
  draw,
  print: 'P',
  file: 'knob.gcode',
  started_at: '2026-03-01T12:00:00.000Z',
  reels: [{ tool: 0, reel: 'QX5BN' }],
  printer: 'GULL1',
  layers: { spiral: false, height_mm: [], share: [] },
  picture: null,
})

const kept = (): readonly string[] =>
  JSON.parse(storage.get('reelreckon-running') ?? '[]').map((one: { draw: string }) => one.draw)

test('what one page starts or ends, another does not undo', async () => {
  const one = await page()
  const other = await page()
  one.startPrint(print('A'))
  other.startPrint(print('B'))
  expect(kept()).toEqual(['A', 'B'])
  one.endPrint('A')
  other.startPrint(print('C'))
  expect(kept()).toEqual(['B', 'C'])
  expect(one.current().map(({ draw }) => draw)).toEqual(['B', 'C'])
  // Nothing is drawn anew while nothing changed.
  expect(one.current()).toBe(one.current())
})

test('where the browser keeps nothing, it holds until the page is left', async () => {
  const one = await page()
  isFull = true
  one.startPrint(print('A'))
  one.startPrint(print('B'))
  expect(kept()).toEqual([])
  expect(one.current().map(({ draw }) => draw)).toEqual(['A', 'B'])
  one.endPrint('A')
  isFull = false
  one.startPrint(print('C'))
  expect(kept()).toEqual(['B', 'C'])
})
