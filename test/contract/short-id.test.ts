import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  checkSymbol,
  idAlphabet,
  idLength,
  isId,
  makeId,
  readId,
  showId,
} from '../../src/contract/index.ts'
import { DomainError } from '../../src/units/index.ts'

const symbols = Array.from(idAlphabet)
const lengths = Object.values(idLength)

const id = (length: number): fc.Arbitrary<string> =>
  fc
    .array(fc.constantFrom(...symbols), { minLength: length - 1, maxLength: length - 1 })
    .map((body) => body.join('') + checkSymbol(body.join('')))

/** Every id with one symbol misread. */
function* misread(one: string): Generator<string> {
  for (let i = 0; i < one.length; i++) {
    for (const symbol of symbols) {
      if (symbol !== one[i]) yield one.slice(0, i) + symbol + one.slice(i + 1)
    }
  }
}

/** Every id with two unlike symbols exchanged, side by side or not. */
function* exchanged(one: string): Generator<string> {
  for (let i = 0; i < one.length; i++) {
    for (let j = i + 1; j < one.length; j++) {
      if (one[i] === one[j]) continue
      const marks = Array.from(one)
      marks[i] = one[j]!
      marks[j] = one[i]!
      yield marks.join('')
    }
  }
}

test('the alphabet has 31 symbols, none of them easily mistaken for another', () => {
  expect(new Set(symbols).size).toBe(31)
  expect(idAlphabet).not.toMatch(/[01ILO]/)
})

describe.each(lengths)('ids of %i symbols', (length) => {
  test('a random one is an id', () => {
    fc.assert(fc.property(id(length), (one) => isId(one, length)))
  })

  test('every single slip in one is found', () => {
    const one = makeId(length, () => 42)
    const slips = [...misread(one)]
    expect(slips).toHaveLength(length * 30)
    expect(slips.filter((slip) => isId(slip, length))).toEqual([])
  })

  test('any slip and any exchange in any one is found', () => {
    fc.assert(
      fc.property(id(length), (one) => {
        for (const slip of misread(one)) if (isId(slip, length)) return false
        for (const slip of exchanged(one)) if (isId(slip, length)) return false
        return true
      }),
    )
  })

  test('made of bytes, each symbol comes as often as any other', () => {
    const counts = new Map<string, number>()
    let byte = 0
    for (let i = 0; i < 248 * 4; i++) {
      const body = makeId(length, () => byte++ % 256).slice(0, -1)
      for (const symbol of body) counts.set(symbol, (counts.get(symbol) ?? 0) + 1)
    }
    expect(counts.size).toBe(31)
    const times = [...counts.values()]
    expect(Math.max(...times) - Math.min(...times)).toBeLessThanOrEqual(1)
  })

  test('is read as people type it', () => {
    fc.assert(
      fc.property(id(length), (one) => {
        expect(readId(` ${showId(one).toLowerCase()} `, length)).toEqual({ ok: true, value: one })
      }),
    )
  })
})

test.each([
  ['id_symbol', 'ABC1D'],
  ['id_symbol', 'ABCÄD'],
  ['id_length', 'ABCD'],
  ['id_length', ''],
  ['id_check', 'ABCDF'],
])('%s: %s', (code, typed) => {
  expect(readId(typed, idLength.row)).toMatchObject({ ok: false, refusal: { code } })
})

test('a symbol that is none is a broken contract', () => {
  expect(() => checkSymbol('AB0')).toThrow(DomainError)
})

test('long ids are shown in threes', () => {
  expect(showId('ABCDE')).toBe('ABCDE')
  expect(showId('ABCDEFGHJ')).toBe('ABC-DEF-GHJ')
})
