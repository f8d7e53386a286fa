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
  expect(one.isRunningKept()).toBe(false)
  one.startPrint(print('B'))
  expect(kept()).toEqual([])
  expect(one.current().map(({ draw }) => draw)).toEqual(['A', 'B'])
  one.endPrint('A')
  isFull = false
  one.startPrint(print('C'))
  expect(kept()).toEqual(['B', 'C'])
  expect(one.isRunningKept()).toBe(true)
})

test('a reel that took over feeds its tool from then on; what came before stays told', async () => {
  const one = await page()
  const two = [
    { tool: 0, reel: 'QX5BN' },
    { tool: 1, reel: 'K7RMY' },
  ]
  one.startPrint({ ...print('A'), reels: two })
  one.startPrint(print('B'))
  one.changeReel('A', { tool: 0, reel: 'P3QX6', after_layer: 17 }, true)
  const [a, b] = one.current()
  expect(a?.reels).toEqual([
    { tool: 0, reel: 'QX5BN', ran_dry: true },
    { tool: 1, reel: 'K7RMY' },
    { tool: 0, reel: 'P3QX6', after_layer: 17 },
  ])
  expect(one.reelsNow(a!).map(({ reel }) => reel)).toEqual(['K7RMY', 'P3QX6'])
  expect(b?.reels).toEqual([{ tool: 0, reel: 'QX5BN' }])
})
