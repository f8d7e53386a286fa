import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type FirmwareFamilyId,
  type MotionOptions,
  type PrintReading,
  readPrint,
} from '../../src/print/index.ts'
import { families } from './case.ts'
import { checkCuts } from './check-cuts.ts'
import { digest } from './fast-reading.ts'
import { plannedTime } from './planned.ts'
import { randomProgram } from './random-program.ts'

const bytesOf = (lines: readonly string[]): Uint8Array =>
  new TextEncoder().encode(`${lines.join('\n')}\n`)

const read = (lines: readonly string[], motion: MotionOptions = {}): PrintReading => {
  const outcome = readPrint([bytesOf(lines)], { motion })
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

const total = (lines: readonly string[], motion: MotionOptions = {}): number =>
  read(lines, motion).time!.total_s

/** One acceleration, and nothing else that limits. */
const plain = (family: FirmwareFamilyId, accel = 1000): MotionOptions => ({
  family,
  values: {
    maxFeed: [1e4, 1e4, 1e4, 1e4],
    maxAccel: [1e6, 1e6, 1e6, 1e6],
    printAccel: accel,
    travelAccel: accel,
    retractAccel: accel,
  },
})

/** 100 mm at 100 mm/s: a second, and the tenth that speeding up and slowing down costs at 1000 mm/s². */
const leg = 'G1 X100 F6000'
const legTime = 1.1

test('times are told only when they are asked for', () => {
  const outcome = readPrint([bytesOf(['M83', 'G1 X100 E3 F6000'])])
  expect(outcome.ok && outcome.value.time).toBe(null)
  expect(outcome.ok && outcome.value.layers).not.toHaveProperty('endTime_s')
})

test.each(families)('%s: a move, a dwell, a speed from the line before', (family) => {
  expect(total([leg], plain(family))).toBeCloseTo(legTime, 9)
  expect(total([leg, 'G4 P500', 'G1 X0'], plain(family))).toBeCloseTo(2 * legTime + 0.5, 9)
  const seconds = family === 'host' ? 0 : 2
  expect(total([leg, 'G4 S2', 'G1 X0'], plain(family))).toBeCloseTo(2 * legTime + seconds, 9)
})

test.each(families)('%s: M220 slows all that follows, to the letter of F', (family) => {
  // 100 mm at 50 mm/s, 1000 mm/s².
  expect(total(['M220 S50', leg], plain(family))).toBeCloseTo(2.05, 9)
})

describe('limits that a file sets, by family', () => {
  const slow: Partial<Record<FirmwareFamilyId, readonly string[]>> = {
    community: ['M204 P250', 'M204 S250', 'M201 X250', 'M204 P250 T250'],
    'community-1': ['M204 S250', 'M201 X250'],
    meta: ['M204 P250', 'M201 X250'],
    host: ['M204 S250', 'M204 P250 T300', 'SET_VELOCITY_LIMIT ACCEL=250'],
    textfile: ['M204 S250'],
  }
  test.each(families)('%s: acceleration', (family) => {
    // 100 mm at 100 mm/s, 250 mm/s²: L/v + v/a.
    for (const line of slow[family]!) {
      expect(total(['M83', line, 'G1 X100 E1 F6000'], plain(family)), line).toBeCloseTo(1.4, 9)
    }
  })

  test('what a family does not obey changes nothing', () => {
    const ignored: readonly (readonly [FirmwareFamilyId, string])[] = [
      ['host', 'M201 X250 Y250'],
      ['host', 'M204 P250'],
      ['host', 'M203 X10'],
      ['host', 'M205 X1 Y1'],
      ['textfile', 'M201 X250'],
      ['meta', 'M204 S250'],
      ['community', 'SET_VELOCITY_LIMIT ACCEL=250'],
      ['community', 'M566 X60 Y60'],
    ]
    for (const [family, line] of ignored) {
      const path = [line, 'M83', 'G1 X100 E1 F6000', 'G1 Y50 E1']
      expect(total(path, plain(family)), `${family}: ${line}`).toBe(
        total(path.slice(1), plain(family)),
      )
    }
  })

  test('speed: mm/s, and mm/min in one family unless it says S1', () => {
    expect(total(['M203 X50', leg], plain('community'))).toBeCloseTo(2.05, 9)
    expect(total(['M203 X3000', leg], plain('meta'))).toBeCloseTo(2.05, 9)
    expect(total(['M203 X50 S1', leg], plain('meta'))).toBeCloseTo(2.05, 9)
    expect(total(['SET_VELOCITY_LIMIT VELOCITY=50', leg], plain('host'))).toBeCloseTo(2.05, 9)
  })

  test('corners: jerk in mm/s or mm/min, deviations, and the rule that they belong to', () => {
    const corner = [leg, 'G1 Y100']
    const with10 = total(corner, {
      ...plain('meta'),
      values: { ...plain('meta').values!, corner: 'jerk', jerk: [10, 10, 10, 10] },
    })
    expect(total(['M566 X600 Y600', ...corner], plain('meta'))).toBeCloseTo(with10, 9)
    expect(total(['M205 X10 Y10', ...corner], plain('meta'))).toBeCloseTo(with10, 9)
    // Nobody has told the printer's rule: the file's own values tell it.
    expect(total(['M205 X10 Y10', ...corner], plain('community'))).toBeCloseTo(with10, 9)
    expect(read(['M205 X10 Y10', leg], plain('community')).time!.corner).toBe('jerk')
    expect(read(['M205 J0.02', leg], plain('community-1')).time!.corner).toBe('junction-deviation')
    const wide = total(['M205 J0.2', ...corner], plain('community'))
    expect(wide).toBeLessThan(total(corner, plain('community')))
    expect(total(['M205 X0.2', ...corner], plain('textfile'))).toBeCloseTo(
      total(corner, {
        ...plain('textfile'),
        values: { ...plain('textfile').values!, junctionDeviation: 0.2 },
      }),
      9,
    )
  })

  test('a printer whose rule is told keeps it', () => {
    const motion: MotionOptions = { family: 'community', values: { corner: 'junction-deviation' } }
    expect(read(['M205 X10 Y10', leg], motion).time!.corner).toBe('junction-deviation')
  })
})

test('a command of one family tells the family, where nobody has', () => {
  expect(read([leg]).time!.family).toBe('community')
  expect(read(['SET_VELOCITY_LIMIT ACCEL=2000', leg]).time!.family).toBe('host')
  expect(read(['M566 X600', leg]).time!.family).toBe('meta')
  expect(read(['M566 X600', leg], { family: 'textfile' }).time!.family).toBe('textfile')
})

test('the feeder alone: its own acceleration, and firmware retraction like any other', () => {
  const motion: MotionOptions = {
    family: 'host',
    values: { maxFeed: [300, 300, 300, 45], retractAccel: 900, maxAccel: [1e4, 1e4, 1e4, 900] },
  }
  const alone = plannedTime([{ way: [0, 0, 0], feed: -4, speed: 45 }], motion)
  expect(total(['M83', 'G1 E-4 F2700'], motion)).toBeCloseTo(alone, 9)
  const lines = bytesOf(['SET_RETRACTION RETRACT_LENGTH=4', 'G10'])
  const outcome = readPrint([lines], { firmware: 'host', motion })
  expect(outcome.ok && outcome.value.time?.total_s).toBeCloseTo(alone, 9)
})

test.each(['community', 'community-1'] as const)('%s: M204 R is the feeder alone', (family) => {
  // 40 mm at 100 mm/s: L/v + v/a.
  const path = ['M83', 'M204 R250', 'G1 E-40 F6000']
  expect(total(path, plain(family))).toBeCloseTo(0.8, 9)
  expect(total(path.slice(0, 2).concat(leg), plain(family))).toBeCloseTo(legTime, 9)
})

describe('arcs', () => {
  test('are planned on the chords of the family', () => {
    // A half circle of radius 10: 31 chords of 1 mm, more by a rule of deviation.
    const arc = ['M83', 'G0 X10 F6000', 'G2 X-10 Y0 I-10 J0 E2 F6000']
    const straight = total(arc.slice(0, 2), plain('host'))
    const along = total(arc, plain('host')) - straight
    expect(along).toBeGreaterThan((Math.PI * 10) / 100)
    // The same arc written as its chords takes as long.
    const chords = Array.from({ length: 31 }, (_, k) => {
      const angle = (Math.PI * (k + 1)) / 31
      const x = 10 * Math.cos(angle)
      const y = -10 * Math.sin(angle)
      return `G1 X${x.toFixed(9)} Y${y.toFixed(9)} E${(2 / 31).toFixed(9)}`
    })
    const written = total([...arc.slice(0, 2), ...chords], plain('host')) - straight
    expect(along).toBeCloseTo(written, 5)
  })

  test('with and without the silhouette, the same', () => {
    const arc = bytesOf(['M83', 'G1 X10 E1 F6000', 'G2 X-10 I-10 E2', 'G3 X0 Y5 R20 E1', 'G1 X0'])
    const one = readPrint([arc], { motion: {} })
    const both = readPrint([arc], { motion: {}, silhouette: true })
    expect(one.ok && both.ok && both.value.time).toEqual(one.ok && one.value.time)
  })
})

test('waits stand where they are, and heat that is there is not waited for', () => {
  const { time } = read([
    'G28',
    'M190 S60',
    'M109 S200',
    leg,
    'M109 S200',
    'M109 S202',
    'G1 X0',
    'T1',
    'T1',
    'M600',
    'G29',
  ])
  const at = time!.waits.map(({ kind, at_s, times }) => [kind, Math.round(at_s * 10) / 10, times])
  const [first, second] = [time!.waits[0]!.at_s, time!.waits[3]!.at_s]
  expect(at.map(([kind]) => kind)).toEqual(['homing', 'bed', 'nozzle', 'tool', 'person', 'probing'])
  expect(first).toBe(0)
  expect(second).toBeCloseTo(time!.total_s, 9)
  // A stop of a length that the file says is time, not a wait.
  expect(read(['M0 S5'], { family: 'community' }).time).toMatchObject({ total_s: 5, waits: [] })
})

test('a hundred thousand waits are kept as few', () => {
  const lines = Array.from({ length: 100_000 }, (_, k) => `T${k % 2}\nG1 X${k % 10}`)
  const { waits } = read(['T1', ...lines, 'G28']).time!
  expect(waits.length).toBeLessThanOrEqual(1024)
  expect(waits.reduce((sum, { times }) => sum + times, 0)).toBe(100_000 + 2)
})

/** A small print with all that a clock has to follow. */
const print = [
  'M190 S60',
  'G28',
  'M109 S210',
  'M83',
  'G92 E0',
  'G1 X20 E8 F1500',
  ...Array.from({ length: 12 }, (_, layer) => [
    `G1 Z${((layer + 1) * 0.2).toFixed(1)} F600`,
    'G1 E-0.8 F2400',
    'G0 X10 Y10 F9000',
    'G1 E0.8 F2400',
    'M204 P800',
    'G1 X60 Y10 E1.6 F3000',
    'G1 X60 Y60 E1.6',
    'G3 X10 Y60 I-25 E2.4',
    'M204 P1500',
    'G1 X10 Y10 E1.6 F1800',
    ...(layer === 6 ? ['M600', 'G91', 'G1 X5', 'G1 E1', 'G90'] : []),
  ]).flat(),
  'G10',
  'M107',
].filter((line) => line !== '')

describe('a whole print', () => {
  test('time never falls along the curve, and layers end in order', () => {
    const { families: groups, layers, time, stops } = read(print)
    const [tool] = groups[0]!.tools
    const times = tool!.curve.time_s!
    expect(times.length).toBe(tool!.curve.draw_mm.length)
    for (let row = 1; row < times.length; row++) {
      expect(times[row]!).toBeGreaterThanOrEqual(times[row - 1]!)
    }
    expect(times.at(-1)).toBe(time!.total_s)
    const ends = layers.endTime_s!
    expect(ends.length).toBe(layers.count)
    for (let layer = 1; layer < ends.length; layer++) {
      expect(ends[layer]!).toBeGreaterThan(ends[layer - 1]!)
    }
    expect(ends.at(-1)).toBe(time!.total_s)
    const { layer, time_s: stopped } = stops[0]!
    expect(stopped).toBeGreaterThan(ends[layer - 2]!)
    expect(stopped).toBeLessThan(ends[layer - 1]!)
    expect(time!.waits.map(({ kind }) => kind)).toEqual(['bed', 'homing', 'nozzle', 'person'])
  })

  test('a row is told the time at which its own move ends', () => {
    // The last move of the file is the one that feeds most: before it and behind it lie seconds.
    const { families: groups, time } = read(['M83', 'G1 X1 E0.1 F600', 'G1 X101 E9'])
    const { draw_mm: draws, time_s: times } = groups[0]!.tools[0]!.curve
    expect(draws[1]).toBeCloseTo(9.1, 9)
    expect(times![1]).toBe(time!.total_s)
    expect(times![0]).toBeLessThan(0.2)
  })

  test.each(['community', 'host'] as const)(
    '%s: cut anywhere, the same to the last bit',
    (family) => {
      checkCuts(bytesOf(print.slice(0, 40)), { motion: { family } })
    },
  )

  test('a loop takes its time as often as it runs', () => {
    const body = ['G1 X100 F6000', 'G4 P0', 'G1 X0', 'G4 P0']
    const once = total(body)
    expect(total(['M808 L5', ...body, 'M808'])).toBeCloseTo(5 * once, 9)
  })
})

test('random programs: whatever the slices, and no time goes back', () => {
  fc.assert(
    fc.property(randomProgram, fc.double({ min: 0, max: 1, noNaN: true }), (bytes, share) => {
      const options = { motion: {}, silhouette: true }
      const at = Math.floor(share * bytes.length)
      const whole = readPrint([bytes], options)
      const cut = readPrint([bytes.subarray(0, at), bytes.subarray(at)], options)
      expect(digest(cut)).toBe(digest(whole))
      if (!whole.ok) return
      for (const { tools } of whole.value.families) {
        for (const { curve } of tools) {
          const times = [...curve.time_s!]
          expect(times.every((time) => Number.isFinite(time))).toBe(true)
          expect(times.toSorted((a, b) => a - b)).toEqual(times)
        }
      }
      // What is read of the draw does not change.
      const without = readPrint([bytes], { silhouette: true })
      if (without.ok) {
        expect(whole.value.counts).toEqual(without.value.counts)
        expect(
          whole.value.families.map(({ tools }) => tools.map(({ peak_mm }) => peak_mm)),
        ).toEqual(without.value.families.map(({ tools }) => tools.map(({ peak_mm }) => peak_mm)))
      }
    }),
    { numRuns: 100 },
  )
})
