import { expect, test } from 'vitest'
import { type MatchSlate, matchSlate } from '../../src/match/index.ts'
import { measured } from '../../src/units/index.ts'
import { copyOf, exactPrinter, reelOf, slateOf, toldBelief } from './told-slate.ts'

const running = (grams: number, reel: string) => [
  { tool: 0, reel, draw: [{ weight: 1, peak_mm: 1000 * grams }] },
]

const withRunning = (grams: number, more: Partial<MatchSlate> = {}): MatchSlate =>
  slateOf([copyOf('cleat', 60, ['r'])], [reelOf('r', 144)], {
    printers: [exactPrinter('a'), exactPrinter('b', { free_h: 5, running: running(grams, 'r') })],
    ...more,
  })

test('what a print that runs takes is not planned again', async () => {
  const fits = await matchSlate(withRunning(80))
  expect(fits.served.map(({ copy }) => copy)).toEqual(['cleat'])
  expect(fits.reels[0]).toMatchObject({ before: { value: 144 }, lastsRunning: 1 })
  expect(fits.reels[0]!.running).toMatchObject([{ printer: 'b', needed: { value: 80 } }])
  expect(fits.reels[0]!.left.value).toBeCloseTo(4, 6)
  const short = await matchSlate(withRunning(90))
  expect(short.served).toEqual([])
  expect(short.unserved[0]!.missing[0]).toMatchObject({ nearest: 'r', isBusy: true })
  expect(short.unserved[0]!.missing[0]!.short_g).toBeCloseTo(6, 3)
})

test('its reel is on its printer until it is done', async () => {
  const copies = [copyOf('cleat', 60, ['r'], { duration_h: 1, due_h: 3 })]
  const { served } = await matchSlate(withRunning(80, { copies }))
  expect(served[0]).toMatchObject({ begins_h: 5, ends_h: 6, late: true, waitsFor: 'r' })
})

const fedWith = (u: number): MatchSlate => ({
  ...withRunning(300, { copies: [copyOf('cleat', 100, ['r'], { printers: ['b'] })] }),
  reels: [
    {
      id: 'r',
      sealed: true,
      belief: toldBelief(measured(430), ['a', 'b'], { feed: measured(1, u) }),
    },
  ],
})

test('what it takes is counted together with all else: the doubt of the printer grows with both', async () => {
  // 30 g are 1.5 times the 20 g that 400 g are doubtful by: a chance of 93 %.
  expect((await matchSlate(fedWith(0.05))).served).toEqual([])
  const sure = await matchSlate(fedWith(0.04))
  expect(sure.served[0]!.chance).toBeCloseTo(0.97, 2)
  // A reel that a print runs from is open.
  expect(sure.reels[0]!.opened).toBe(false)
})

test('of a reel that does not last for what runs that is told, and nothing more is asked of it', async () => {
  const { served, reels } = await matchSlate(withRunning(150))
  expect(served).toEqual([])
  expect(reels[0]).toMatchObject({ lastsRunning: 0, chance: 0, duties: [] })
})

test.each([
  [400, 200, 120],
  [260, 30, 190],
  [900, 700, 60],
])(
  'it is reckoned as a copy begun on that reel and printer: %d g, %d g and %d g',
  async (net, runs, asked) => {
    const reels = [
      {
        id: 'r',
        sealed: false,
        belief: toldBelief(measured(net, 12), ['a', 'b'], {
          linearDensity: measured(1, 0.02),
          feed: measured(1, 0.03),
          start: measured(300, 90),
          ownFeed: 0.01,
        }),
      },
    ]
    const cleat = copyOf('cleat', asked, ['r'], { printers: ['b'] })
    const vane = copyOf('vane', runs, ['r'], { printers: ['b'] })
    const both = await matchSlate(slateOf([vane, cleat], reels))
    const beside = await matchSlate(withRunning(runs, { copies: [cleat], reels }))
    expect(both.served).toHaveLength(2)
    expect(beside.served[0]!.chance).toBeCloseTo(both.served[1]!.chance, 9)
    expect(beside.reels[0]!.left.value).toBeCloseTo(both.reels[0]!.left.value, 6)
    expect(beside.reels[0]!.left.u).toBeCloseTo(both.reels[0]!.left.u, 6)
  },
)

/** Layers of 20 g, 30 g and 50 g of filament of 1 g/m. */
const layered = [{ weight: 1, peak_mm: 100_000, layerEnd_mm: Float64Array.of(20e3, 50e3, 100e3) }]

const withChange = (more: Partial<MatchSlate> = {}): MatchSlate => {
  const parts = [
    { reel: 'r', untilLayer: 1 },
    { reel: 's', afterLayer: 1, untilLayer: 2 },
    { reel: 'r', afterLayer: 2 },
  ]
  const runs = parts.map((part) => Object.assign({ tool: 0, draw: layered }, part))
  const change_mm = measured(4000)
  return slateOf(
    [copyOf('cleat', 60, ['s'], { printers: ['a'], duration_h: 1 })],
    [reelOf('r', 144), reelOf('s', 144)],
    {
      printers: [exactPrinter('a'), exactPrinter('b', { free_h: 5, running: runs, change_mm })],
      ...more,
    },
  )
}

test('of a print whose reels were changed each reel gives what it feeds, and what its change takes', async () => {
  const { reels } = await matchSlate(withChange())
  expect(reels.map(({ running: runs }) => runs)).toMatchObject([
    [
      { afterLayer: 0, untilLayer: 1, needed: { value: 20 } },
      { afterLayer: 2, untilLayer: null, needed: { value: 54 } },
    ],
    [{ afterLayer: 1, untilLayer: 2, needed: { value: 34 } }],
  ])
  expect(reels[0]!.left.value).toBeCloseTo(144 - 74, 6)
  expect(reels[1]!.left.value).toBeCloseTo(144 - 34 - 60, 6)
})

test('a reel that came off is free, and the last is on the printer', async () => {
  const off = await matchSlate(withChange())
  expect(off.served[0]).toMatchObject({ begins_h: 0, waitsFor: null })
  const copies = [copyOf('cleat', 60, ['r'], { printers: ['a'], duration_h: 1 })]
  const on = await matchSlate(withChange({ copies }))
  expect(on.served[0]).toMatchObject({ begins_h: 5, waitsFor: 'r', waitsAt: 'b' })
})

test('a part in which its tool draws nothing takes nothing but what its beginning or change does', async () => {
  const draw = [{ weight: 1, peak_mm: 80_000, layerEnd_mm: Float64Array.of(0, 80e3, 80e3) }]
  const runs = [
    { tool: 0, draw, reel: 'r', untilLayer: 1 },
    { tool: 0, draw, reel: 's', afterLayer: 1 },
  ]
  const { reels } = await matchSlate(
    withChange({ printers: [exactPrinter('a'), exactPrinter('b', { running: runs })] }),
  )
  expect(reels.map(({ running: [first] }) => first!.needed.value)).toEqual([0, 80])
})

test('a part of a print whose layers are not known is no slate', async () => {
  const runs = [{ tool: 0, reel: 'r', draw: [{ weight: 1, peak_mm: 10 }], untilLayer: 1 }]
  const printers = [exactPrinter('a'), exactPrinter('b', { running: runs })]
  await expect(matchSlate(withChange({ printers }))).rejects.toMatchObject({ code: 'no_layers' })
})
