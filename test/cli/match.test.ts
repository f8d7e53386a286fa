import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, expect, test } from 'vitest'
import { matchJson } from '../../src/contract/index.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const prints = folderOfPrints()
const data = mkdtempSync(join(tmpdir(), 'reelreckon-match-'))

const match = (...words: readonly string[]) =>
  runCli(['match', ...words], { cwd: prints, env: { REELRECKON_DATA: data } })

beforeAll(() => {
  runCli(['import', 'marrowick.ndjson'], { cwd: prints, env: { REELRECKON_DATA: data } })
})

test('the answer comes first, then the troughs, then the working, in 80 columns', () => {
  const { out, err, exit } = match('--why')
  expect(err).toBe('')
  expect(exit).toBe(20)
  const lines = out.split('\n')
  expect(lines[1]).toMatch(/^ {2}\d+ OF 17 PRINTS HAVE THEIR REELS\.$/)
  const trough = lines.findIndex((line) => line.includes('│'))
  expect(trough).toBeGreaterThan(2)
  expect(lines.findIndex((line) => line.includes('Which reel for which print'))).toBeGreaterThan(
    trough,
  )
  expect(out).toContain('vase')
  expect(lines.filter((line) => line.length > 80)).toEqual([])
})

const plan = (...words: readonly string[]) => {
  const { out, exit } = match('--json', ...words)
  return { exit, ...matchJson.parse(JSON.parse(out)) }
}

test('what if: a print dropped, a reel forbidden, a choice locked', () => {
  const whole = plan('--drop', 'vase')
  expect(whole.exit).toBe(0)
  const { reel } = whole.copies[0]!.duties[0]!
  const without = plan('--drop', 'vase', '--forbid', reel)
  expect(without.reels.find((each) => each.reel === reel)?.duties ?? []).toEqual([])
  const locked = plan('--drop', 'vase', '--lock', 'winch knob#2=HA83A')
  const knob = locked.copies.find(({ name, copy }) => name === 'winch knob' && copy === 2)
  expect(knob?.duties[0]?.reel).toBe('HA83A')
  expect(plan('--confidence', '99.9%').confidence).toBe(0.999)
  expect(plan('--new-reel', 'make=Brannoc PETG, label=1kg, colour=brown').exit).toBe(0)
})

test('it tells when each print begins, what to put on for it, and where what it waits for is', () => {
  const { orders } = plan('--drop', 'vase', '--limit', '1s')
  const { name } = orders.find(({ copies }) => copies.length > 0)!
  const text = match('--drop', 'vase', '--limit', '1s', '--busy', `${name}=23:30`).out.replaceAll(
    /\s+/g,
    ' ',
  )
  expect(text).toContain(`${name}, at work until`)
  expect(text).toMatch(/: from \w{3} 23:30, /)
  expect(text).toMatch(/ g( each)?; put it on/)
})

test('what runs comes off its reel first, and its copy is not planned anew', () => {
  const { orders, copies } = plan('--drop', 'vase', '--limit', '1s')
  const knobs = copies.filter(({ name }) => name === 'winch knob').length
  const busy = `${orders[0]!.name}=23:30, print=winch knob, reel=HA83A`
  const then = plan('--drop', 'vase', '--limit', '1s', '--busy', busy)
  expect(then.copies.filter(({ name }) => name === 'winch knob')).toHaveLength(knobs - 1)
  const reel = then.reels.find((each) => each.reel === 'HA83A')!
  expect(reel.running).toMatchObject([{ printer_name: orders[0]!.name, tool: 0 }])
  const taken = [...reel.running, ...reel.duties].reduce((sum, one) => sum + one.needed_g.value, 0)
  expect(reel.left_g.value).toBeCloseTo(reel.holds_g.value - taken, 1)
  const { out } = match('--drop', 'vase', '--limit', '1s', '--busy', busy)
  expect(out).toContain('* runs now, and comes off first.')
})

test('of what runs with a change of reels each gives its part', () => {
  const { orders, reels } = plan('--drop', 'vase', '--limit', '1s')
  const { name } = orders[0]!
  const other = reels.find(({ reel }) => reel !== 'HA83A')!.reel
  const busy = `${name}=23:30, print=winch knob, reel=HA83A, reel=${other}, after-layer=20`
  const then = plan('--drop', 'vase', '--limit', '1s', '--busy', busy)
  expect(then.reels.flatMap(({ reel, running }) => running.map((runs) => [reel, runs]))).toEqual(
    expect.arrayContaining([
      ['HA83A', expect.objectContaining({ after_layer: 0, until_layer: 20 })],
      [other, expect.objectContaining({ after_layer: 20, until_layer: null })],
    ]),
  )
})

test('a plan is kept', () => {
  expect(match('--keep').out.replaceAll(/\s+/g, ' ')).toContain('The plan is kept.')
})

test.each([
  [['--lock', 'nothing'], 'which reel is for which print'],
  [['--busy', 'the Gull'], '--busy'],
  [['--busy', 'the Gull=2026-01-01 04:00'], 'is past'],
  [['--busy', 'the Gull=23:30, print=no such.gcode, reel=HA83A'], 'or was ever kept'],
  [['--busy', 'the Gull=23:30, print=winch knob'], 'From which reel'],
  [
    ['--busy', 'the Gull=23:30, print=winch knob, reel=HA83A, reel=HA83A, after-layer=2'],
    'can not take over from itself',
  ],
  [
    ['--busy', 'the Gull=23:30, print=winch knob, reel=HA83A, T0=HA83A'],
    "as 'T0=K7RMY, T0=P3QX6, after-layer=17'",
  ],
  [['--limit', 'soon'], '30s or 2min'],
  [['--new-reel', 'label=1kg'], 'of which make'],
  [['--drop', 'no such'], 'no waiting print'],
  [['--confidence', '40%'], '--confidence'],
])('%j is refused', (words, why) => {
  const { err, exit } = match(...words)
  expect(exit).toBe(2)
  expect(err.replaceAll(/\s+/g, ' ')).toContain(why)
})
