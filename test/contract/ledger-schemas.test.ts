import { expect, test } from 'vitest'
import { z } from 'zod'
import { ledgerRecord } from '../../src/contract/index.ts'

const fact = {
  id: '222222222',
  at: '2026-03-01T18:30:00.000Z',
  recorded_at: '2026-03-01T18:30:00.000Z',
}
const row = { id: '22222', changed_at: '2026-03-01T18:30:00.000Z' }
const reel = '22222'
const weighing = { scale: '22222', reading_g: 422 }
const drew = { ...fact, kind: 'drew', reel, printer: '22222', length_mm: 1 }
const opened = { ...fact, kind: 'opened', reel, make: '22222' }
const measured = { ...fact, kind: 'measured', reel }

test.each<readonly [string, object]>([
  ['opened', opened],
  ['opened with all', { ...opened, price: { amount: '21.9', currency: 'EUR' }, part_used: true }],
  ['weighed', { ...fact, kind: 'weighed', reel, weighing }],
  [
    'weighed as nothing',
    { ...fact, kind: 'weighed', reel, weighing: { ...weighing, reading_g: 0 } },
  ],
  ['drew up to a layer', { ...drew, stopped_at: { layer: 3 }, share: { value: 0, u: 0 } }],
  ['trimmed', { ...fact, kind: 'trimmed', reel, length_mm: { value: 0, u: 0 } }],
  ['emptied', { ...fact, kind: 'emptied', reel }],
  ['measured', { ...measured, calipers: { places_mm: [[1.74, 1.76]] } }],
  ['dried', { ...fact, kind: 'dried', reel, temperature_c: 0 }],
  ['put right', { ...fact, kind: 'put-right', voids: '222222222', reason: 'misread' }],
  ['a person', { ...row, kind: 'person', name: 'Tilde' }],
  ['priors', { ...row, kind: 'priors', id: 'priors', priors: {} }],
])('%s is taken, and stays what it was', (_, value) => {
  expect(ledgerRecord.parse(value)).toEqual(value)
})

test.each<readonly [string, object]>([
  ['a kind of its own', { ...fact, kind: 'melted', reel }],
  ['no kind', { ...fact, reel }],
  ['a key too many', { ...fact, kind: 'emptied', reel, grams: 1 }],
  ['a key too many, deep', { ...fact, kind: 'weighed', reel, weighing: { ...weighing, g: 1 } }],
  ['a key that is undefined', { ...fact, kind: 'emptied', reel, note: undefined }],
  ['a key too few', { ...fact, kind: 'weighed', reel }],
  ['an id with a slip', { ...fact, kind: 'emptied', reel: '22223' }],
  ['a fact id for a reel', { ...fact, kind: 'emptied', reel: '222222222' }],
  ['an id in small letters', { ...fact, id: 'aaaaaaaaa', kind: 'emptied', reel }],
  ['a day that is none', { ...fact, at: '2026-02-30T00:00:00.000Z', kind: 'emptied', reel }],
  ['a moment to the second', { ...fact, at: '2026-03-01T18:30:00Z', kind: 'emptied', reel }],
  ['a negative draw', { ...drew, length_mm: -1 }],
  ['an endless draw', { ...drew, length_mm: Infinity }],
  ['a share above one', { ...drew, share: { value: 1.01, u: 0 } }],
  ['stopped in two ways', { ...drew, stopped_at: { layer: 3, share: 0.5 } }],
  ['stopped in no way', { ...drew, stopped_at: {} }],
  ['stopped before the first layer', { ...drew, stopped_at: { layer: 0 } }],
  ['half a tool', { ...drew, tool: 0.5 }],
  [
    'trimmed twice',
    { ...fact, kind: 'trimmed', reel, mass_g: { value: 1, u: 0 }, length_mm: { value: 1, u: 0 } },
  ],
  ['trimmed nothing', { ...fact, kind: 'trimmed', reel }],
  ['nothing measured', measured],
  ['one diameter alone', { ...measured, calipers: { places_mm: [[1.75]] } }],
  ['a negative uncertainty', { ...measured, density_g_per_cm3: { value: 1.2, u: -1 } }],
  ['a density of 0', { ...measured, density_g_per_cm3: { value: 0, u: 0 } }],
  [
    'steam',
    {
      ...measured,
      immersion: { in_air_g: { value: 1, u: 0 }, in_water_g: { value: 0, u: 0 }, water_c: 100 },
    },
  ],
  ['a label of 0', { ...opened, label_net_g: 0 }],
  ['a price of words', { ...opened, price: { amount: 'much', currency: 'EUR' } }],
  ['a currency in small letters', { ...opened, price: { amount: '1', currency: 'eur' } }],
  ['a colour in capitals', { ...opened, colour: { name: 'blue', srgb: '#1F6FB2' } }],
  ['not part-used', { ...opened, part_used: false }],
  ['two lines', { ...fact, kind: 'emptied', reel, note: 'a\nb' }],
  ['a control character', { ...fact, kind: 'emptied', reel, note: 'a\u0007b' }],
  ['only a control character', { ...fact, kind: 'emptied', reel, note: '\u007f' }],
  ['only blanks', { ...fact, kind: 'emptied', reel, note: '  ' }],
  ['priors under another id', { ...row, kind: 'priors', priors: {} }],
  ['a carrier of wood', { ...row, kind: 'make', maker: 'a', name: 'b', carrier: 'wood' }],
  [
    'a scale without steps',
    { ...row, kind: 'scale', name: 'a', step_g: 0, repeatability_g: 0, gain: 0 },
  ],
])('%s is refused', (_, value) => {
  expect(ledgerRecord.safeParse(value).success).toBe(false)
})

test('keys are put in the order of the schema', () => {
  const mixed = { reel, recorded_at: fact.recorded_at, kind: 'emptied', at: fact.at, id: fact.id }
  expect(JSON.stringify(ledgerRecord.parse(mixed))).toBe(
    JSON.stringify({ kind: 'emptied', ...fact, reel }),
  )
})

/** Keys of numbers that have no unit, or whose unit is that of the whole. */
const unitless = new Set(
  `value u share tool layer accepted_off gain count passes bytes byte end_byte end_line hours
   places_mm feed_factor water_share remaining_share priors minimum_cruise copies importance done most
   copy after_layer times after to`.split(/\s+/),
)

interface Part {
  readonly type?: string
  readonly $ref?: string
  readonly items?: Part
  readonly properties?: Readonly<Record<string, Part>>
}

function* numbersOf(part: unknown): Generator<string> {
  if (typeof part !== 'object' || part === null) return
  for (const [key, inner] of Object.entries((part as Part).properties ?? {})) {
    const type = inner.items?.type ?? inner.type
    if (type === 'number' || type === 'integer' || inner.$ref?.endsWith('/measured')) yield key
  }
  for (const inner of Object.values(part)) yield* numbersOf(inner)
}

test('every number names its unit in its key, or has none', () => {
  const keys = [...new Set(numbersOf(z.toJSONSchema(ledgerRecord)))]
  expect(keys.length).toBeGreaterThan(30)
  expect(
    keys.filter(
      (key) =>
        !unitless.has(key) && !/_(?:g|mm|s|h|c|g_per_cm3|g_per_m|mm_per_s|mm_per_s2)$/.test(key),
    ),
  ).toEqual([])
})
