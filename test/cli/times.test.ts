import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { parseStart } from '../../src/cli/parse-start.ts'
import { placeInBrief, timeSentences } from '../../src/cli/time-sentences.ts'
import type { CheckJson, RecordedJson, ReelListJson } from '../../src/contract/index.ts'
import { unknownPace } from '../../src/estimate/index.ts'
import type { Layers } from '../../src/print/index.ts'
import { formatBetween, formatDuration, formatHour, formatWhen } from '../../src/units/index.ts'
import type { ToolVerdict } from '../../src/verdict/index.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

/** A Thursday evening by the clock of this machine. */
const evening = new Date(2026, 0, 1, 21, 30).getTime()
const at = (hours: number): number => evening + hours * 3_600_000

describe('when a print is started', () => {
  test.each([
    ['now', 0],
    ['21:30', 0],
    ['22:15', 0.75],
    ['20:00', -1.5],
    // More than six hours past: tomorrow's.
    ['7:05', 9 + 35 / 60],
    ['2026-01-02 03:30', 6],
  ])('%s', (typed, hours) => {
    expect(parseStart(typed, evening)).toBe(at(hours))
  })

  test.each([
    ['23:50', -4 - 9 / 60],
    ['22:00', -5 - 59 / 60],
    ['21:50', 17 + 51 / 60],
    ['4:10', 11 / 60],
    ['3:00', -59 / 60],
  ])('in the small hours %s may be yesterday’s', (typed, hours) => {
    const night = new Date(2026, 0, 2, 3, 59).getTime()
    expect((parseStart(typed, night) - night) / 3_600_000).toBeCloseTo(hours, 6)
  })

  test.each(['25:00', '9:75', 'soon', '40mm', '2026-01-02'])('%s is refused', (typed) => {
    expect(() => parseStart(typed, evening)).toThrow()
  })
})

const between = (early: number, likely: number, late: number): string =>
  formatBetween([at(early), at(late)], at(likely), evening)

describe('how moments are said', () => {
  test('by the day they fall on', () => {
    expect(formatWhen(at(1), evening)).toBe('at 22:30')
    expect(formatWhen(at(6), evening, { doubt_s: 600 })).toBe('tomorrow at about 03:30')
    expect(formatWhen(at(30), evening, { word: 'from', doubt_s: 600 })).toBe(
      'on Saturday from 03:30',
    )
    expect(formatWhen(at(24 * 9), evening)).toBe('on Sat 10 Jan at 21:30')
    expect(formatWhen(at(-1), evening)).toBe('at 20:30')
    expect(formatWhen(at(-24), evening)).toBe('yesterday at 21:30')
  })

  test('what they lie between has the day where it is another', () => {
    expect(between(1, 1.5, 2)).toBe('22:30 to 23:30')
    expect(between(2, 3, 4)).toBe('today 23:30 to 01:30')
    expect(between(1, 2, 3)).toBe('22:30 to tomorrow 00:30')
    expect(between(28, 50, 75)).toBe('01:30 to Monday 00:30')
    expect(between(-30, -25, 24 * 9)).toBe('15:30 to Sat 10 Jan 21:30')
  })

  test('rounded to half of their doubt', () => {
    const odd = at(1) + 7 * 60_000
    expect(formatHour(odd)).toBe('22:37')
    expect(formatHour(odd, 700)).toBe('22:35')
    expect(formatHour(odd, 10_000)).toBe('22:30')
  })
})

test.each([
  [12, 0, '12 s'],
  [270, 0, '4 min 30 s'],
  [3000, 60, '50 min'],
  [13_200, 600, '3 h 40 min'],
  [13_200, 4000, '3 h 30 min'],
  [187_200, 1000, '2 d 4 h'],
])('%i s, give or take %i, is %s', (seconds, doubt, said) => {
  expect(formatDuration(seconds, doubt)).toBe(said)
})

/** A print of layers that take as long each, an hour unless told, to the second and without doubt. */
const hourly = (layers: number, start: number, length_s = 3600) => {
  const pace = { ...unknownPace(), covariance: new Float64Array(9) }
  const ready = Math.exp(pace.mean[0])
  const endTime_s = Float64Array.from({ length: layers }, (_, k) => length_s * (k + 1) - ready)
  return {
    layers: { count: layers, spiral: false, endTime_s } as unknown as Layers,
    times: {
      time: { total_s: endTime_s.at(-1), waits: [] },
      pace,
      start,
      layers: { count: layers, endTime_s },
    } as never,
    changedAfter: (layer: number, firstLayer = 1) =>
      ({
        verdict: 'close',
        contradicting: [],
        runDry: { early: null, likely: null, late: null },
        changeBefore: { layer, height_mm: null, planned_s: endTime_s[layer - 1], firstLayer },
      }) as unknown as ToolVerdict,
  }
}

const bedtime = (layer: number, now = evening, first?: number): string | undefined => {
  const { layers, times, changedAfter } = hourly(60, evening)
  const said = timeSentences(changedAfter(layer, first), times, layers, now).join(' ')
  return /go to bed: after layer (\d+)/.exec(said)?.[1]
}

describe('where the last safe change comes at night', () => {
  test('the layer before bed is one of the evening, and not of the morning after', () => {
    // Layer 1 ends at about 22:30, layer 8 at 05:30; layer 32 at 05:30 of the night after next.
    expect(bedtime(8)).toBe('1')
    expect(bedtime(32)).toBe('25')
  })

  test('by day nothing is said of it', () => {
    expect(bedtime(12)).toBeUndefined()
  })

  test('nor is it where the reel comes on later than that, or it is past bed-time', () => {
    expect(bedtime(8, evening, 3)).toBeUndefined()
    expect(bedtime(32, evening, 25)).toBe('25')
    expect(bedtime(8, at(3))).toBeUndefined()
  })

  test('where no evening layer is worth a change, that it falls at night is said all the same', () => {
    // Begun at 23:20: layer 1 ends past bed-time, layer 3 at 02:20.
    const late = evening + 110 * 60_000
    // oxlint-disable-next-line unicorn/consistent-function-scoping -- stands beside what it is for
    const said = (start: number, now: number, layer = 3, length_s = 3600): string => {
      const { layers, times, changedAfter } = hourly(200, start, length_s)
      return timeSentences(changedAfter(layer), times, layers, now).join(' ')
    }
    expect(said(late, late)).toContain('in the night: begin it in the morning or with a reel')
    expect(said(late, late + 3_600_000)).toContain('in the night: somebody has to be up for it')
    // Layers of a minute from 23:00 on: one that ends 29 min after it is no time to change.
    const eleven = evening + 90 * 60_000
    expect(said(eleven, eleven, 170, 60)).toContain('in the night: begin it in the morning')
    expect(said(evening, evening, 170, 60)).toMatch(/go to bed: after layer 11\d/)
    // Of layers of an hour from 20:30 on, that of 22:30 is over at 23:10.
    expect(said(at(-1), at(1 + 40 / 60), 8)).toContain('somebody has to be up for it')
  })

  test('a place that may fall on another day is said with that day', () => {
    const { times } = hourly(60, evening)
    const doubtful = { ...(times as object), pace: unknownPace() } as never
    expect(placeInBrief(doubtful, 23 * 3600, evening)).toMatch(
      /^tomorrow at about 2\d:\d\d \(\d\d:\d\d to Saturday 0\d:\d\d\)$/,
    )
  })
})

const folder = folderOfPrints()
const close = ['--gross', '422g', '--label', '1000g', '--tare-of-make', '281g']

const check = (...words: string[]): CheckJson =>
  JSON.parse(runCli(['check', ...words, '--json'], { cwd: folder }).out) as CheckJson

test('check tells times after the start, and by the clock where that is told', () => {
  const plain = check('tackle-box.gcode', ...close)
  const { time, change_before: change, run_dry: dry } = plain
  expect(time!.planned_s).toBeGreaterThan(3600)
  expect(time!.takes.early_s).toBeLessThan(time!.takes.likely_s!)
  expect(time).not.toHaveProperty('start_at')
  expect(change!.clock!.likely_s).toBeLessThan(time!.takes.likely_s!)
  expect(dry.clock!.early_s).toBeLessThan(dry.clock!.likely_s!)

  const started = check('tackle-box.gcode', ...close, '--start', '2026-03-01T21:30:00Z')
  expect(started.time!.start_at).toBe('2026-03-01T21:30:00.000Z')
  const ends = Date.parse(started.time!.takes.likely_at!)
  expect((ends - Date.parse('2026-03-01T21:30:00Z')) / 1000).toBeCloseTo(time!.takes.likely_s!, -1)
  expect(started.run_dry.clock!.early_at).toMatch(/^2026-03-02T0/)
})

test('the sheet says it in words, with a layer before bed where the change would come at night', () => {
  const words = ['check', 'tackle-box.gcode', ...close]
  const { out } = runCli(words, { cwd: folder })
  expect(out).toContain('The print takes about 3 h')
  expect(out).toContain('after the start')
  const evenings = runCli([...words, '--start', '2126-03-01 21:30'], { cwd: folder }).out
  expect(evenings.replaceAll(/\s+/g, ' ')).toMatch(
    /so change it before you go to bed: after layer \d+, on Fri 1 Mar at about 2[23]:\d\d\./,
  )
})

test('each time has its interval, and which of two comes first is told by the layer', () => {
  const words = ['check', 'tackle-box.gcode', ...close.with(1, '402g'), '--density', '1.24']
  words.push('--material', 'PLA')
  const said = (...more: string[]): string =>
    runCli([...words, ...more], { cwd: folder }).out.replaceAll(/\s+/g, ' ')
  const interval = String.raw`\(\d\d:\d\d to \d\d:\d\d\)`
  const started = said('--start', '2126-03-01 12:00')
  expect(started).toMatch(
    new RegExp(`It runs dry on Fri 1 Mar at about \\d\\d:\\d\\d ${interval}\\.`),
  )
  expect(started).toMatch(
    new RegExp(
      `Layer 194 ends on Fri 1 Mar at about \\d\\d:\\d\\d ${interval}\\. A slower print comes later`,
    ),
  )
  expect(said()).toMatch(
    /It runs dry about 3 h[ \dmin]* \(\d h[^)]* to \d h[^)]*\) after the start\. Layer 194 ends about .* go by the layer, not by the clock/,
  )
})

test('a length has no times', () => {
  expect(check('--draw', '40m', '--net', '150g').time).toBeNull()
  const { exit, err: error } = runCli(
    ['check', '--draw', '40m', '--net', '150g', '--start', 'now'],
    {
      cwd: folder,
    },
  )
  expect(exit).toBe(2)
  expect(error).toContain('--start')
})

test('what a printer may do is pasted once, its pace is learnt from what prints took', () => {
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-times-'))
  const report = join(data, 'report.txt')
  writeFileSync(
    report,
    'echo:; Maximum feedrates (units/s):\necho:  M203 X180.00 Y180.00 Z12.00 E80.00\nM201 X900 Y900 Z100 E5000\nM204 P900 R1200 T900\nM205 B20000 S0 T0 X8 Y8 Z0.4 E4\n',
  )
  const run = (...words: string[]): ReturnType<typeof runCli> =>
    runCli([...words, '--data', data], { cwd: folder })
  const made = run('printer', 'add', 'harbour', '--firmware', 'community', '--motion', report)
  expect([made.exit, made.err]).toEqual([0, ''])
  const rows = JSON.parse(run('printer', 'list', '--json').out) as {
    rows: { motion: unknown }[]
  }
  expect(rows.rows[0]!.motion).toEqual({
    max_feed_mm_per_s: [180, 180, 12, 80],
    max_accel_mm_per_s2: [900, 900, 100, 5000],
    print_accel_mm_per_s2: 900,
    travel_accel_mm_per_s2: 900,
    retract_accel_mm_per_s2: 1200,
    corner: 'jerk',
    jerk_mm_per_s: [8, 8, 0.4, 4],
  })
  const make = ['--make', 'Kittiwake PLA', '--maker', 'Kittiwake', '--material', 'PLA']
  const added = run('reel', 'add', ...make, '--label', '1kg')
  expect([added.exit, added.err]).toEqual([0, ''])
  const list = JSON.parse(run('reel', 'list', '--json').out) as ReelListJson
  const reel = list.reels[0]!.reel.id
  const asked = ['check', 'knob.gcode', '--reel', reel, '--json']
  const before = (JSON.parse(run(...asked).out) as CheckJson).time!
  expect([before.family, before.corner, before.timed_prints]).toEqual(['community', 'jerk', 0])

  const slow = Math.round(before.planned_s * 1.3) + 300
  for (let k = 0; k < 3; k++) {
    const drew = run('draw', 'knob.gcode', '--reel', reel, '--took', `${slow}s`, '--json')
    expect([drew.exit, drew.err]).toEqual([0, ''])
    const { facts } = JSON.parse(drew.out) as RecordedJson
    expect(facts[0]).toMatchObject({ timed: { took_s: slow, planned_s: before.planned_s } })
  }
  const behind = (JSON.parse(run(...asked).out) as CheckJson).time!
  expect(behind.timed_prints).toBe(3)
  expect(Math.abs(behind.takes.likely_s! / slow - 1)).toBeLessThan(0.05)
  const spread = (time: typeof before): number => time.takes.late_s! / time.takes.early_s!
  expect(spread(behind)).toBeLessThan(spread(before))

  const stopped = run(
    'draw',
    'knob.gcode',
    '--reel',
    reel,
    '--took',
    '1h',
    '--stopped-at',
    'layer=3',
  )
  expect(stopped.exit).toBe(2)
  expect(stopped.err).toContain('finished')
  const nothing = join(data, 'nothing.txt')
  writeFileSync(nothing, 'ok\nhello\n')
  const told = run('printer', 'change', 'harbour', '--motion', nothing)
  expect([told.exit, told.err.includes('M503')]).toEqual([2, true])
})
