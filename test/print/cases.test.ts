import { describe, expect, test } from 'vitest'
import { families, toBytes } from './case.ts'
import { cases } from './cases.ts'
import { checkAgreement } from './check-agreement.ts'
import { checkCase, checkDraw, statedFamilies } from './check-case.ts'
import { checkCuts } from './check-cuts.ts'
import { asTwin, readFast } from './fast-reading.ts'

describe('the case table through the fast reader', () => {
  test.each(cases)('$name', (item) => {
    const bytes = toBytes(item.code)
    const result = asTwin(readFast(bytes, item.options))
    if (!result.ok) expect.fail(`refused: ${result.code} in line ${result.line}`)
    checkCase(item, result)
    for (const firmware of statedFamilies(item)) {
      const alone = asTwin(readFast(bytes, { ...item.options, firmware }))
      if (!alone.ok) expect.fail(`${firmware} refused: ${alone.code}`)
      expect([...alone.byFamily.keys()]).toEqual([firmware])
      checkDraw(item, alone)
    }
  })
})

describe('the case table: fast reader and twin agree in all they tell', () => {
  test.each(cases)('$name', ({ code, options = {} }) => {
    const bytes = toBytes(code)
    checkAgreement(bytes, options, readFast(bytes, options))
    if (options.firmware) return
    for (const firmware of families) {
      checkAgreement(bytes, { ...options, firmware }, readFast(bytes, { ...options, firmware }))
    }
  })
})

describe('the case table, cut at every byte', () => {
  test.each(cases)('$name', ({ code, options }) => {
    checkCuts(toBytes(code), options)
  })
})
