import { expect, test } from 'vitest'
import { motionOfReport } from '../../src/print/index.ts'

const report = `echo:; Steps per unit:
echo: M92 X80.00 Y80.00 Z400.00 E93.00
echo:; Maximum feedrates (units/s):
echo:  M203 X500.00 Y500.00 Z5.00 E25.00
echo:; Maximum Acceleration (units/s2):
echo:  M201 X500.00 Y500.00 Z100.00 E5000.00
echo:; Acceleration (units/s2) (P<print-accel> R<retract-accel> T<travel-accel>):
echo:  M204 P500.00 R1000.00 T800.00
echo:; Advanced (B<min_segment_time_us> J<junc_dev>):
echo:  M205 B20000.00 S0.00 T0.00 J0.02
`

test('an answer to M503 is read as the family reads its own commands', () => {
  expect(motionOfReport(report, 'community')).toEqual({
    family: 'community',
    values: {
      maxFeed: [500, 500, 5, 25],
      maxAccel: [500, 500, 100, 5000],
      printAccel: 500,
      retractAccel: 1000,
      travelAccel: 800,
      junctionDeviation: 0.02,
      corner: 'junction-deviation',
    },
  })
})

test('without a family the values stand, and the family is left open', () => {
  const { family, values } = motionOfReport(report)!
  expect(family).toBeUndefined()
  expect(values!.maxFeed).toEqual([500, 500, 5, 25])
})

test('speeds per minute give away their family', () => {
  const told = motionOfReport('M203 X18000 Y18000 Z600 E3600\r\nM566 X900 Y900 Z12 E120\r\n')!
  expect(told.family).toBe('meta')
  expect(told.values!.maxFeed).toEqual([300, 300, 10, 60])
  expect(told.values!.jerk).toEqual([15, 15, 0.2, 2])
})

test('a configuration of the host family', () => {
  const told = motionOfReport(
    '[printer]\nmax_velocity: 250\nmax_accel: 4000\nmax_z_velocity = 12\nmax_z_accel: 350\nsquare_corner_velocity: 8\nminimum_cruise_ratio: 0.4\n',
  )!
  expect(told).toEqual({
    family: 'host',
    values: {
      maxFeed: [250, 250, 12, 80],
      printAccel: 4000,
      travelAccel: 4000,
      maxAccel: [4000, 4000, 350, 800],
      squareCorner: 8,
      minimumCruise: 0.4,
    },
  })
})

test.each(['', 'ok', 'M104 S200\nG28', 'max_temp: 250'])('nothing of motion: %s', (text) => {
  expect(motionOfReport(text)).toBeNull()
})
