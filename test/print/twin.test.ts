import { describe, expect, test } from 'vitest'
import { toBytes } from './case.ts'
import { cases } from './cases.ts'
import { checkCase } from './check-case.ts'
import { hostileCases } from './hostile.ts'
import { twinRead } from './twin.ts'

describe('the twin on the case table', () => {
  test('names are unique', () => {
    const names = cases.map(({ name }) => name)
    expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([])
  })
  test.each(cases)('$name', (item) => {
    const result = twinRead(toBytes(item.code), item.options)
    if (!result.ok) expect.fail(`refused: ${result.code} in line ${result.line}`)
    checkCase(item, result)
  })
})

describe('the twin on hostile inputs', () => {
  test.each(hostileCases)('$name', (item) => {
    const result = twinRead(toBytes(item.code), item.options)
    if (item.refusal) {
      expect(result).toMatchObject({ ok: false, ...item.refusal })
      return
    }
    if (!result.ok) expect.fail(`refused: ${result.code} in line ${result.line}`)
    checkCase(item, result)
  })
})
