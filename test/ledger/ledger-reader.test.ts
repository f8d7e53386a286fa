import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ledgerRecord } from '../../src/contract/index.ts'
import {
  LedgerReader,
  ledgerHeader,
  ledgerLine,
  readLedger,
  recordOf,
} from '../../src/ledger/index.ts'
import { arbitraryRecord } from './arbitrary-records.ts'
import { grey, opened, rows, tilde, weighed } from './bench-records.ts'

const header = ledgerHeader(Date.UTC(2026, 2, 1))
const records = [...rows, opened(1), weighed(2, 422)]
const lines = [header, ...records.map(ledgerLine)]

test('records come back as they were, whatever they are', () => {
  fc.assert(
    fc.property(fc.array(arbitraryRecord, { maxLength: 8 }), (some) => {
      const text = some.map(ledgerLine)
      const read = readLedger([header, ...text])
      expect(read).toEqual({ ok: true, value: some })
      // In the order of the schema a line is the same text again.
      const again = some.map((one) => ledgerLine(ledgerRecord.parse(one)))
      const twice = readLedger([header, ...again])
      expect(twice.ok && twice.value.map(ledgerLine)).toEqual(again)
    }),
  )
})

test('no line has a line end in it', () => {
  fc.assert(fc.property(arbitraryRecord, (one) => !/[\n\r]/.test(ledgerLine(one))))
})

test('the header is a line of its own', () => {
  expect(header).toBe(
    '{"kind":"reelreckon-ledger","format":1,"written_at":"2026-03-01T00:00:00.000Z"}',
  )
})

test.each([
  ['CR LF', lines.map((line) => `${line}\r\n`)],
  ['a byte order mark', [`\uFEFF${lines[0]}`, ...lines.slice(1)]],
  ['blank lines', ['', ...lines.flatMap((line) => [line, ' \t', ''])]],
  ['a second header', [...lines, header]],
])('%s makes no difference', (_, text) => {
  expect(readLedger(text)).toEqual({ ok: true, value: records })
})

const good = weighed(2, 422)

describe('refused with a line and a sentence', () => {
  test.each<readonly [code: string, line: string, message: RegExp]>([
    ['ledger_no_json', ledgerLine(good).slice(0, -9), /^Line 2: No complete JSON: .* cut short/],
    ['ledger_no_json', 'reel;gross', /"reel;gross"/],
    ['ledger_record', '[1,2]', /^Line 2: The line is \[1,2\]; expected an object in braces\.$/],
    ['ledger_record', '7', /The line is 7/],
    ['ledger_record', '{}', /"kind" is missing; expected one of "opened", "weighed", /],
    ['ledger_record', '{"kind":"melted"}', /"kind" is "melted"; expected one of "opened"/],
    [
      'ledger_record',
      JSON.stringify({ ...good, grams: 1, __proto__x: 2 }),
      /there is no key "grams" and no key "__proto__x"/i,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, weighing: { ...good.weighing, g: 1 } }),
      /There is no key "weighing\.g" in a record of this kind\.$/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, weighing: { ...good.weighing, reading_g: 'heavy' } }),
      /^Line 2: "weighing\.reading_g" is "heavy"; expected a number\.$/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, weighing: { ...good.weighing, reading_g: -1 } }),
      /"weighing\.reading_g" is -1; expected at least 0\.$/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, reel: 'ABCDF' }),
      /"reel" is "ABCDF"; expected an id whose last symbol fits/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, at: '1 March' }),
      /"at" is "1 March"; expected a moment like/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, at: '2026-02-30T12:00:00.000Z' }),
      /a moment of the calendar/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, note: 'a\nb' }),
      /"note" is "a\\nb"; expected text of one line/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, note: '' }),
      /"note" is ""; expected at least 1 letter\.$/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...tilde, name: undefined }),
      /"name" is missing; expected a text/,
    ],
    [
      'ledger_record',
      JSON.stringify({
        kind: 'measured',
        ...common(),
        reel: grey,
        calipers: { places_mm: [[1.75, 'x']] },
      }),
      /"calipers\.places_mm\[0\]\[1\]" is "x"; expected a number/,
    ],
    [
      'ledger_record',
      JSON.stringify({ kind: 'moved', ...common(), reel: grey, place: 'a', air: 'wet' }),
      /"air" is "wet"; expected one of "room", "dry"/,
    ],
    [
      'ledger_record',
      JSON.stringify({ kind: 'trimmed', ...common(), reel: grey }),
      /either "mass_g" or "length_mm"/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...opened(1), price: { amount: '1', currency: 'eur' } }),
      /"price\.currency" is "eur"; expected a currency/,
    ],
    [
      'ledger_record',
      JSON.stringify({ ...good, at: '2031-01-01T12:00:00.000Z' }),
      /can not be dated 2031-01-01: it is written down on/,
    ],
    [
      'ledger_newer',
      '{"kind":"reelreckon-ledger","format":2}',
      /^Line 2: This ledger is of format 2, which is newer/,
    ],
    ['ledger_header', '{"kind":"reelreckon-ledger"}', /names no format/],
  ])('%s: %s', (code, line, message) => {
    const read = readLedger([header, line, ledgerLine(good)])
    expect(read).toMatchObject({ ok: false, refusal: { code, line: 2 } })
    expect(read.ok ? '' : read.refusal.message).toMatch(message)
  })

  test('at most three things at once', () => {
    const read = recordOf({ kind: 'emptied' })
    expect(read.ok ? '' : read.refusal.message).toMatch(/^"id" is missing.*; and 1 more\.$/)
  })
})

function common(): object {
  const { id, at, recorded_at } = good
  return { id, at, recorded_at }
}

test.each([[[]], [['', '']], [[ledgerLine(good)]], [['not a ledger']]])(
  'without a header nothing is a ledger: %j',
  (text) => {
    const read = readLedger(text)
    expect(read.ok).toBe(false)
    if (text.length > 0 && text[0] === 'not a ledger') return
    expect(read).toMatchObject({ refusal: { code: 'ledger_header' } })
  },
)

test.each([
  ['{"a":1}', 'before its records a first line with "kind": "reelreckon-ledger" is missing.'],
  ['', 'a first line with "kind": "reelreckon-ledger" is missing.'],
])('what is no ledger is told what it lacks: %s', (line, lacks) => {
  const read = readLedger([line])
  expect(read.ok ? '' : read.refusal.message).toContain(
    `This is not a ledger of Reelreckon: ${lacks}`,
  )
})

test('a caller may go on after a line that was refused', () => {
  const reader = new LedgerReader()
  const read = [header, 'x', ledgerLine(good)].map((line) => reader.read(line))
  expect(read.map(({ ok }) => ok)).toEqual([true, false, true])
  expect(read[2]).toEqual({ ok: true, value: good })
  expect(reader.end()).toEqual({ ok: true, value: 3 })
})

test('cut anywhere, the last line is refused or whole', () => {
  const text = lines.join('\n')
  for (let end = header.length + 1; end < text.length; end++) {
    const cut = text.slice(0, end).split('\n')
    const read = readLedger(cut)
    const last = cut.at(-1)
    expect(read.ok).toBe(last === '' || last === lines[cut.length - 1])
  }
})

test('a prior that would be dropped in silence is refused', () => {
  const line =
    '{"kind":"priors","id":"priors","changed_at":"2026-03-01T12:00:00.000Z","priors":{"__proto__":{"value":1,"u":1}}}'
  expect(readLedger([header, line])).toMatchObject({
    ok: false,
    refusal: { code: 'ledger_record', received: '__proto__', line: 2 },
  })
})
