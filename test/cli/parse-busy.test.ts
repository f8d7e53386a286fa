import { expect, test } from 'vitest'
import { Fault } from '../../src/cli/fault.ts'
import { parseBusy } from '../../src/cli/parse-busy.ts'

const now = Date.parse('2026-03-01T12:00:00Z')
const runs = (words: string) => parseBusy(`the Gull=23:30, ${words}`, now)

test('a printer at work, and what runs there from which reel of which tool', () => {
  expect(parseBusy('the Gull=23:30', now)).toEqual({
    printer: 'the Gull',
    until: expect.stringMatching(/^2026-03-0\dT/),
  })
  expect(runs('print=knob.gcode, reel=K7RMY')).toMatchObject({
    print: 'knob.gcode',
    reels: [{ reel: 'K7RMY' }],
  })
  expect(runs('print=two, T0=K7RMY; T1=P3QX6')).toMatchObject({
    print: 'two',
    reels: [
      { tool: 0, reel: 'K7RMY' },
      { tool: 1, reel: 'P3QX6' },
    ],
  })
})

test('what is told of a reel stands behind it: after which layer it took over, and that it ran dry', () => {
  expect(runs('print=vase.gcode, reel=K7RMY, ran-dry, reel=P3QX6, after-layer=17').reels).toEqual([
    { reel: 'K7RMY', ran_dry: true },
    { reel: 'P3QX6', after_layer: 17 },
  ])
  expect(runs('print=two, T1=K7RMY, T0=H2WNB, T1=P3QX6, after-layer=17').reels).toEqual([
    { tool: 1, reel: 'K7RMY' },
    { tool: 0, reel: 'H2WNB' },
    { tool: 1, reel: 'P3QX6', after_layer: 17 },
  ])
})

test.each([
  ['print=vase, print=knob, reel=K7RMY', 'key_twice', '"print" is given twice'],
  ['reel=K7RMY, after-layer=3, after-layer=4', 'key_twice', '"after-layer" is given twice'],
  ['print=vase, after-layer=3, reel=K7RMY', 'busy_malformed', 'stands behind the reel'],
  ['after-layer=3, reel=K7RMY', 'busy_malformed', 'stands behind the reel'],
  ['ran-dry, reel=K7RMY', 'busy_malformed', 'stands behind the reel'],
  ['reel=K7RMY, ran-dry=no', 'key_bare', '"no" says nothing of it'],
  ['reel=K7RMY, reel=P3QX6, after-layer=0', 'busy_malformed', '"0" is no layer'],
  ['reel=K7RMY, reel=P3QX6, after-layer=few', 'busy_malformed', '"few" is no layer'],
])('%s is refused', (words, code, why) => {
  let fault: unknown
  try {
    runs(words)
  } catch (thrown) {
    fault = thrown
  }
  expect(fault).toBeInstanceOf(Fault)
  expect((fault as Fault).error).toMatchObject({
    code,
    message: expect.stringContaining(why),
  })
})
