import { describe, expect, test } from 'vitest'
import { families, toBytes } from './case.ts'
import { checkAgreement } from './check-agreement.ts'
import { checkCase, checkDraw, statedFamilies } from './check-case.ts'
import { checkCuts } from './check-cuts.ts'
import { asTwin, readFast } from './fast-reading.ts'
import { hostileCases } from './hostile.ts'

/** The twin takes its time with more than this. */
const agreeUpTo = 200_000

describe('hostile inputs through the fast reader', () => {
  test.each(hostileCases)('$name', (item) => {
    const bytes = toBytes(item.code)
    const outcome = readFast(bytes, item.options)
    const result = asTwin(outcome)
    if (item.refusal) {
      expect(result).toMatchObject({ ok: false, ...item.refusal })
      if (!outcome.ok) expect(outcome.refusal.message.length).toBeGreaterThan(20)
      return
    }
    if (!result.ok) expect.fail(`refused: ${result.code} in line ${result.line}`)
    checkCase(item, result)
    for (const firmware of statedFamilies(item)) {
      const alone = asTwin(readFast(bytes, { ...item.options, firmware }))
      if (!alone.ok) expect.fail(`${firmware} refused: ${alone.code}`)
      checkDraw(item, alone)
    }
  })
})

const quick = hostileCases.filter(({ code, slow }) => !slow && code.length <= agreeUpTo)

describe('hostile inputs: fast reader and twin agree', () => {
  test.each(quick)('$name', ({ code, options = {} }) => {
    const bytes = toBytes(code)
    checkAgreement(bytes, options, readFast(bytes, options))
    if (options.firmware) return
    for (const firmware of families) {
      checkAgreement(bytes, { ...options, firmware }, readFast(bytes, { ...options, firmware }))
    }
  })
})

describe('hostile inputs, cut at every byte', () => {
  test.each(quick)('$name', ({ code, options }) => {
    checkCuts(toBytes(code), options)
  })
})
