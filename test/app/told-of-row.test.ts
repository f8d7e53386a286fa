import { describe, expect, test } from 'vitest'
import { motionFields } from '../../src/app/set-up/motion-fields.ts'
import { fieldsOf } from '../../src/app/set-up/row-kinds.ts'
import { toldOfRow } from '../../src/app/set-up/told-of-row.ts'

type Texts = Readonly<Record<string, string>>

const told = (before: Readonly<Record<string, unknown>>, texts: Texts) =>
  toldOfRow(before, fieldsOf('printer', 'g', texts), texts)

const printer = {
  name: 'the Gull',
  firmware: 'community-1',
  motion: { print_accel_mm_per_s2: 500, jerk_mm_per_s: [8, 8, 0.4, 5] },
}

describe('what a form tells of a printer', () => {
  test('nothing, where nothing was touched or all is as it was', () => {
    expect(told(printer, {})).toEqual({ told: {}, refused: {} })
    expect(told(printer, { print_accel_mm_per_s2: '500' }).told).toEqual({})
  })

  test('what a planned change of reels takes', () => {
    expect(told(printer, { change_mm: '150 ± 40 mm' }).told).toEqual({
      change_mm: { value: 150, u: 40 },
    })
  })

  test('how it moves as a whole: what is not touched of it stays', () => {
    const firmware = 'community-1'
    const texts = { firmware, print_accel_mm_per_s2: '750', max_feed_mm_per_s: '180 180 12,5 80' }
    expect(told(printer, texts).told).toEqual({
      motion: {
        print_accel_mm_per_s2: 750,
        jerk_mm_per_s: [8, 8, 0.4, 5],
        max_feed_mm_per_s: [180, 180, 12.5, 80],
      },
    })
  })

  test('what is emptied is not known any more, and with the last of it nothing is', () => {
    const firmware = 'community-1'
    expect(told(printer, { firmware, jerk_mm_per_s: '' }).told).toEqual({
      motion: { print_accel_mm_per_s2: 500 },
    })
    const both = { firmware, jerk_mm_per_s: '', print_accel_mm_per_s2: ' ' }
    expect(told(printer, both).told).toEqual({ motion: null })
  })

  test('what is emptied stays so where another is told after it', () => {
    const before = { ...printer, motion: { print_accel_mm_per_s2: 500 } }
    const texts = {
      firmware: 'community-1',
      print_accel_mm_per_s2: '',
      travel_accel_mm_per_s2: '750',
    }
    expect(told(before, texts).told).toEqual({ motion: { travel_accel_mm_per_s2: 750 } })
  })

  test.each([
    ['max_feed_mm_per_s', '300 300 5', 'here are 3'],
    ['max_feed_mm_per_s', '300 300 5 fast', 'above 0'],
    ['print_accel_mm_per_s2', '0', 'above 0'],
    ['print_accel_mm_per_s2', '1e9', 'above 0'],
    ['print_accel_mm_per_s2', '1,200', '1.200 or as 1200'],
    ['max_feed_mm_per_s', '300 300 1,200 5', '1.200 or as 1200'],
    ['name', '', 'needed'],
  ])('%s of "%s" is refused', (key, text, why) => {
    const { told: nothing, refused } = told(printer, { firmware: 'community-1', [key]: text })
    expect(refused[key]).toContain(why)
    expect(Object.keys(refused)).toEqual([key])
    expect(nothing).not.toHaveProperty('firmware')
  })
})

const keys = (texts: Texts): readonly string[] => motionFields(texts).map(({ key }) => key)

describe('what is asked of how a printer moves', () => {
  test('is what its corner rule needs: its own, else that of its firmware', () => {
    expect(keys({})).toContain('junction_deviation_mm')
    expect(keys({ firmware: 'community-1' }).at(-1)).toBe('jerk_mm_per_s')
    expect(keys({ firmware: 'community', corner: 'jerk' }).at(-1)).toBe('jerk_mm_per_s')
    expect(keys({ firmware: 'host' }).slice(-2)).toEqual([
      'square_corner_mm_per_s',
      'minimum_cruise',
    ])
  })

  test('stands beside what its firmware has', () => {
    const [speed] = motionFields({ firmware: 'meta' })
    expect(speed!.hint).toBe('300 · 300 · 15 · 60 unless told.')
    const [cruise] = motionFields({ firmware: 'host' }).slice(-1)
    expect(cruise!.read('0')).toEqual({ ok: true, value: 0 })
    expect(cruise!.read('1').ok).toBe(false)
  })
})
