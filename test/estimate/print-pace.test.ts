import { describe, expect, test } from 'vitest'
import {
  learnPace,
  type Pace,
  type PlannedRun,
  pacePriors,
  type TimedRun,
  takes,
  unknownPace,
} from '../../src/estimate/index.ts'
import { seeded } from '../print/random-path.ts'

/** Normal variates out of even ones, by Box and Muller. */
const normals = (seed: number): (() => number) => {
  const random = seeded(seed)
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random())
}

interface TruePrinter {
  readonly preparation_s: number
  readonly moves: number
  readonly waits: number
}

/** A printer out of the priors. */
const printerOf = (normal: () => number): TruePrinter => {
  const { preparation, moves, waits } = pacePriors
  const drawn = ({ value, u }: { value: number; u: number }): number =>
    Math.exp(value + u * normal())
  return { preparation_s: drawn(preparation), moves: drawn(moves), waits: drawn(waits) }
}

const usual = (run: PlannedRun): number =>
  run.waits.reduce((sum, { kind, times }) => sum + times * (pacePriors.waits_s[kind] ?? 0), 0)

const truth = (printer: TruePrinter, run: PlannedRun, normal: () => number): number => {
  const moves = printer.moves * run.planned_s
  const scatter = pacePriors.scatter * moves * normal() + pacePriors.reading_s * normal()
  return Math.max(1, printer.preparation_s + moves + printer.waits * usual(run) + scatter)
}

const runOf = (random: () => number): PlannedRun => ({
  planned_s: 600 * 60 ** random(),
  waits: [
    { kind: 'bed', times: 1 },
    { kind: 'nozzle', times: 1 },
    { kind: 'homing', times: random() < 0.5 ? 1 : 2 },
  ],
})

/** How often the truth lies between early and late, and the usual share of the doubt. */
const coverage = (
  prints: number,
  spoil: (took_s: number, random: () => number) => number = (took) => took,
): { inside: number; doubt: number } => {
  const random = seeded(11)
  const normal = normals(7)
  const cases = 600
  let inside = 0
  let doubts = 0
  for (let k = 0; k < cases; k++) {
    const printer = printerOf(normal)
    const runs = Array.from({ length: prints }, (): TimedRun => {
      const run = runOf(random)
      return { ...run, took_s: spoil(truth(printer, run, normal), random) }
    })
    const next: PlannedRun = { ...runOf(random), planned_s: 4 * 3600 }
    const { early_s, late_s, u_s, value_s } = takes(learnPace(runs), next)
    const took = truth(printer, next, normal)
    if (took >= early_s && took <= late_s) inside++
    doubts += u_s / value_s
  }
  return { inside: inside / cases, doubt: doubts / cases }
}

describe('simulated printers: of times stated as nine in ten, nine in ten hold', () => {
  // 600 cases: a standard error of 1.2 %.
  test.each([
    [0, 0.08, 0.12],
    [1, 0.02, 0.06],
    [3, 0.02, 0.04],
    [12, 0.015, 0.03],
  ])('after %i prints, with a doubt of %f to %f', (prints, least, most) => {
    const { inside, doubt } = coverage(prints)
    expect(inside).toBeGreaterThan(0.86)
    expect(inside).toBeLessThan(0.94)
    expect(doubt).toBeGreaterThan(least)
    expect(doubt).toBeLessThan(most)
  })

  test('also where one print in ten stood still for an hour or two', () => {
    const { inside, doubt } = coverage(12, (took, random) =>
      random() < 0.1 ? took + 3600 * (1 + random()) : took,
    )
    expect(inside).toBeGreaterThan(0.84)
    expect(doubt).toBeLessThan(0.05)
  })
})

test('nobody has timed it: the priors', () => {
  const { value_s, u_s } = takes(unknownPace(), { planned_s: 36_000, waits: [] })
  expect(value_s).toBeCloseTo(36_060, 6)
  expect(u_s / value_s).toBeCloseTo(Math.hypot(0.1, 0.02), 2)
  expect(learnPace([])).toEqual(unknownPace())
})

const run = (planned_s: number, took_s: number): TimedRun => ({ planned_s, took_s, waits: [] })

test('a printer that is half as slow again is believed after a few prints', () => {
  const pace = learnPace([3, 5, 8, 4].map((hours) => run(3600 * hours, 3600 * hours * 1.5 + 60)))
  expect(Math.exp(pace.mean[1])).toBeCloseTo(1.5, 1)
  expect(pace.runs).toBe(4)
})

const moved = (pace: Pace): number => Math.exp(pace.mean[1])

test('one print that stood still hardly moves it', () => {
  const good = [3, 5, 8, 4, 6].map((hours) => run(3600 * hours, 3600 * hours * 1.05 + 60))
  const with1 = learnPace([...good, run(3600 * 4, 3600 * 12)])
  expect(Math.abs(moved(with1) - moved(learnPace(good)))).toBeLessThan(0.01)
})

test('stops for a person are told as such: each ten minutes, and as doubtful', () => {
  const plain = takes(unknownPace(), { planned_s: 3600, waits: [] })
  const stopped = takes(unknownPace(), { planned_s: 3600, waits: [{ kind: 'person', times: 2 }] })
  expect(stopped.value_s - plain.value_s).toBeCloseTo(1200, 6)
  expect(stopped.u_s ** 2 - plain.u_s ** 2).toBeCloseTo(2 * 600 ** 2, 3)
})

test('early and late are a factor off the likeliest', () => {
  const { early_s, value_s, late_s } = takes(unknownPace(), { planned_s: 600, waits: [] })
  expect(early_s * late_s).toBeCloseTo(value_s ** 2, 3)
  expect(early_s).toBeGreaterThan(0)
})
