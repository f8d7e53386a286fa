/**
 * Moves and corners in closed form.
 *
 * Trapezoid and triangle: L. Biagiotti, C. Melchiorri, Trajectory Planning for Automatic Machines and
 * Robots, 2008, 3.2; K. Lynch, F. Park, Modern Robotics, 9.2.2.2 (books not opened; forms as two
 * makers of linear drives print them). Junction deviation: S. Jeon, Improving Grbl: Cornering
 * Algorithm, 2011, and an open firmware's planner. The values beside them were worked out from those
 * forms apart from this project, by another program.
 */
import { describe, expect, test } from 'vitest'
import { junctionSpeed2, squareCornerDeviation } from '../../src/print/corner-speed.ts'
import type { MotionOptions } from '../../src/print/motion-limits.ts'
import { plannedTime, plannedTimes } from '../print/planned.ts'
import type { TwinMove } from '../print/twin-motion.ts'

const unlimited = [1e9, 1e9, 1e9, 1e9] as const

/** A printer with one acceleration and no limits of axes. */
const withAccel = (accel: number, values: MotionOptions['values'] = {}): MotionOptions => ({
  family: 'textfile',
  values: {
    maxFeed: unlimited,
    maxAccel: unlimited,
    printAccel: accel,
    travelAccel: accel,
    retractAccel: accel,
    ...values,
  },
})

const along = (length: number, speed: number): TwinMove => ({
  way: [length, 0, 0],
  feed: 0,
  speed,
})

const towards = (degrees: number, length: number, speed: number): TwinMove => {
  const angle = (degrees * Math.PI) / 180
  return { way: [length * Math.cos(angle), length * Math.sin(angle), 0], feed: 0, speed }
}

describe('single moves from rest to rest', () => {
  test.each([
    [100, 100, 1000, 1.1],
    [10, 100, 1000, 0.2],
    [5, 100, 1000, 0.141421356237],
    [1, 60, 500, 0.0894427191],
    [20, 100, 1000, 0.3],
    [50, 100, 1000, 0.6],
    [1, 60, 1000, 0.06325],
    [20, 300, 10_000, 0.09667],
    [5, 300, 10_000, 0.04472],
  ])('%f mm at %f mm/s and %f mm/s²: %f s', (length, speed, accel, want) => {
    expect(Math.abs(plannedTime([along(length, speed)], withAccel(accel)) - want)).toBeLessThan(
      1e-5,
    )
  })
})

test.each([
  [20, 0.3322265625],
  [2, 0.0831844152],
])('%f mm from 10 to 5 mm/s at most 80, 800 mm/s²', (length, want) => {
  // The neighbours' own speeds set those at the ends.
  const path = [along(10, 10), along(length, 80), along(10, 5)]
  const [before, behind] = plannedTimes(path, withAccel(800)) as [number, number]
  expect(Math.abs(behind - before - want)).toBeLessThan(1e-5)
})

test('a move of 1.5 mm at 3000 mm/s², with and without half of it cruised', () => {
  const move = [along(1.5, 500)]
  const half: MotionOptions = {
    ...withAccel(3000, { corner: 'square-corner', minimumCruise: 0.5 }),
    family: 'host',
  }
  // Top speeds 67.1 and 47.4 mm/s: 2·√(L/a), and the triangle's with half of it at the lower top.
  expect(Math.abs(plannedTime(move, withAccel(3000)) - 0.0447)).toBeLessThan(5e-5)
  expect(Math.abs(plannedTime(move, half) - 0.0474)).toBeLessThan(5e-5)
  const top = Math.sqrt(1500 * 1.5)
  const exact = (2 * top) / 3000 + (1.5 - top ** 2 / 3000) / top
  expect(Math.abs(plannedTime(move, half) - exact)).toBeLessThan(1e-12)
})

/** Cosine of the change of direction for the angle between two moves, 180° straight on. */
const cosOfInterior = (degrees: number): number => -Math.cos((degrees * Math.PI) / 180)

test.each([
  [60, 3.16227766, 4.47213595],
  [90, 4.91346473, 6.94868846],
  [120, 8.03996369, 11.37022569],
  [135, 11.01683765, 15.58016122],
  [150, 16.83678718, 23.81081278],
  [170, 51.165539, 72.35899918],
])('junction deviation, %f° between the moves', (interior, thin, thick) => {
  const speed = (deviation: number): number =>
    Math.sqrt(junctionSpeed2(1000 * deviation, cosOfInterior(interior)))
  expect(speed(0.01)).toBeCloseTo(thin, 7)
  expect(speed(0.02)).toBeCloseTo(thick, 7)
})

test('the junction deviation of a speed at a right angle', () => {
  // 5 mm/s at 1000 mm/s²: 0.0103553391 mm, and back.
  expect(squareCornerDeviation(5) / 1000).toBeCloseTo(0.0103553391, 10)
  expect(Math.sqrt(junctionSpeed2(squareCornerDeviation(5), 0))).toBeCloseTo(5, 9)
})

/**
 * Speed at the corner of two legs of 50 mm, read off the time: each leg takes what it takes from rest,
 * and what its other end saves.
 */
const cornerSpeed = (turn: number, accel: number, options: MotionOptions): number => {
  const speed = 100
  const time = plannedTime([along(50, speed), towards(turn, 50, speed)], options)
  const saved = (at: number): number => {
    const slopes = (2 * speed ** 2 - at ** 2) / (2 * accel)
    return 2 * ((2 * speed - at) / accel + (50 - slopes) / speed)
  }
  let [low, high] = [0, speed]
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2
    if (saved(middle) > time) low = middle
    else high = middle
  }
  return low
}

const turns = [15, 30, 45, 60, 90, 120, 150] as const

test.each<[string, number, MotionOptions, readonly number[]]>([
  [
    'square corner 5 mm/s',
    1000,
    {
      ...withAccel(1000, { corner: 'square-corner', squareCorner: 5, minimumCruise: 0 }),
      family: 'host',
    },
    [34.6, 17.1, 11.2, 8.2, 5, 3.2, 1.9],
  ],
  [
    'junction deviation 0.013 mm, 3000 mm/s²',
    3000,
    withAccel(3000, { junctionDeviation: 0.013 }),
    [67.2, 33.3, 21.8, 15.9, 9.7, 6.2, 3.7],
  ],
  [
    'junction deviation 0.013 mm, 500 mm/s²',
    500,
    withAccel(500, { junctionDeviation: 0.013 }),
    [27.4, 13.6, 8.9, 6.5, 4, 2.6, 1.5],
  ],
  [
    'junction deviation 0.05 mm, 1000 mm/s²',
    1000,
    withAccel(1000, { junctionDeviation: 0.05 }),
    [76.1, 37.6, 24.6, 18, 11, 7.1, 4.2],
  ],
  [
    'jerk 10 mm/s along the axes',
    1000,
    withAccel(1000, { corner: 'jerk', jerk: [10, 10, 10, 10] }),
    [38.6, 20, 14.1, 11.5, 10, 6.7, 5.4],
  ],
])('corner speeds: %s', (_, accel, options, wanted) => {
  turns.forEach((turn, at) => {
    // Printed to 0.1 mm/s, once rounded twice (2.5495 as 2.6).
    expect(Math.abs(cornerSpeed(turn, accel, options) - wanted[at]!)).toBeLessThan(0.051)
  })
})

/** What two legs from 0 to 100 mm/s to `v` take beyond their length over speed and a constant, s. */
const endsAt = (v: number): number => 2 * ((200 - v) / 1000 - (2e4 - v * v) / 2e5)

test('jerk 10 at a right angle that stands at 45° to the axes: 7.07 mm/s', () => {
  const options = withAccel(1000, { corner: 'jerk', jerk: [10, 10, 10, 10] })
  const path = [towards(45, 50, 100), towards(135, 50, 100)]
  const straight = [towards(0, 50, 100), towards(90, 50, 100)]
  const slower = plannedTime(path, options) - plannedTime(straight, options)
  expect(slower).toBeCloseTo(endsAt(Math.SQRT1_2 * 10) - endsAt(10), 6)
})

test('a 20 mm side of a square, corners at 5 mm/s: 0.38375 s', () => {
  const options = withAccel(1000, { junctionDeviation: squareCornerDeviation(5) / 1000 })
  const square = [0, 90, 180, 270].map((angle) => towards(angle, 20, 60))
  const ends = plannedTimes(square, options)
  expect(Math.abs(ends[2]! - ends[1]! - 0.38375)).toBeLessThan(1e-5)
})

const zigzag = (length: number, count: number, speed: number, apart = 0.8): TwinMove[] =>
  Array.from({ length: count }, (_, at) => [
    along(at % 2 === 0 ? length : -length, speed),
    towards(90, apart, speed),
  ]).flat()

const circle = (radius: number, chord: number, turnsRound: number, speed: number): TwinMove[] => {
  const count = Math.round((2 * Math.PI * radius) / chord)
  const at = (k: number): [number, number] => {
    const angle = (2 * Math.PI * k) / count
    return [radius * Math.cos(angle), radius * Math.sin(angle)]
  }
  return Array.from({ length: count * turnsRound }, (_, k) => {
    const [fromX, fromY] = at(k)
    const [toX, toY] = at(k + 1)
    return { way: [toX - fromX, toY - fromY, 0], feed: 0, speed }
  })
}

/** Rows: speed, acceleration, and time over length/speed for jerk 10, deviation 0.013, corner 5. */
const wholePaths: readonly [string, (speed: number) => TwinMove[], number, number[][]][] = [
  [
    '40 mm zigzag, 0.8 mm apart',
    (speed) => zigzag(40, 50, speed),
    0.0051,
    [
      [60, 500, 1.18, 1.23, 1.22],
      [100, 1000, 1.28, 1.31, 1.32],
      [200, 5000, 1.26, 1.25, 1.28],
      [300, 10_000, 1.3, 1.28, 1.32],
    ],
  ],
  [
    // How far apart, and how many legs, was not written down: these fit all twelve.
    '5 mm zigzag, 0.4 mm apart',
    (speed) => zigzag(5, 4, speed, 0.4),
    0.0151,
    [
      [60, 500, 2.23, 2.57, 2.5],
      [100, 1000, 2.81, 3.03, 3.06],
      [200, 5000, 2.76, 2.71, 2.87],
      [300, 10_000, 2.99, 2.87, 3.08],
    ],
  ],
  [
    'circle of radius 10 mm in 0.2 mm chords',
    (speed) => circle(10, 0.2, 10, speed),
    0.03,
    [
      [60, 500, 1.01, 1.01, 1.01],
      [100, 1000, 1.02, 1.02, 1.02],
      [200, 5000, 1.01, 1.01, 1.01],
      [300, 10_000, 1.01, 1.01, 1.01],
    ],
  ],
  [
    // How often round was not written down; the ends count for 2 % or so.
    'circle of radius 10 mm in 1 mm chords',
    (speed) => circle(10, 1, 10, speed),
    0.03,
    [
      [60, 500, 1.01, 1.01, 1.01],
      [100, 1000, 1.02, 1.02, 1.1],
      [200, 5000, 1.67, 1.01, 1.96],
      [300, 10_000, 2.32, 1.01, 2.68],
    ],
  ],
  [
    'circle of radius 2 mm in 0.2 mm chords',
    (speed) => circle(2, 0.2, 10, speed),
    0.05,
    [
      [60, 500, 1.06, 1.06, 1.06],
      [100, 1000, 1.08, 1.08, 1.18],
      [200, 5000, 1.83, 1.06, 2.19],
      [300, 10_000, 2.66, 1.07, 3.18],
    ],
  ],
]

test.each(wholePaths)('%s, by three corner rules', (_, path, near, rows) => {
  for (const [speed, accel, ...wanted] of rows as [number, number, ...number[]][]) {
    const moves = path(speed)
    const plain = moves.reduce((sum, { way }) => sum + Math.hypot(...way) / speed, 0)
    const rules: MotionOptions['values'][] = [
      { corner: 'jerk', jerk: [10, 10, 10, 10] },
      { junctionDeviation: 0.013 },
      { junctionDeviation: squareCornerDeviation(5) / accel },
    ]
    rules.forEach((values, at) => {
      const ratio = plannedTime(moves, withAccel(accel, values)) / plain
      expect(Math.abs(ratio - wanted[at]!), `${speed} mm/s, rule ${at}`).toBeLessThan(near)
    })
  }
})
