import type { Kind, Unit } from './kind.ts'
import { type Measured, measured } from './measured.ts'
import { type Share, share } from './quantity.ts'
import { readOne } from './read-series.ts'
import { accept, type Outcome, refuse } from './refusal.ts'

const percent: Unit = { tens: -2 }

const shareKind: Kind = {
  noun: 'share',
  units: new Map<string, Unit>([
    ['%', percent],
    ['percent', percent],
  ]),
  bare: {},
  example: '95 % or 0.95',
  domain: 'not negative',
}

const percentKind: Kind = { ...shareKind, bare: percent, example: '95 %' }

const parse = (text: string, kind: Kind): Outcome<Measured<Share>> => {
  const one = readOne(text, kind)
  if (!one.ok) return one
  const { value, u } = one.value
  if (value > 1) {
    return refuse({
      code: 'share_above_one',
      message: `"${text.trim()}" is more than the whole. Write for example ${kind.example}.`,
      at: 0,
      expected: kind.example,
      received: text,
    })
  }
  return accept(measured(share(value), u))
}

/**
 * A share of a whole: `95 %` or `0.95`. A bare number is a share, so that `95` is refused rather
 * than guessed at.
 *
 * @returns 0 to 1, u = 0 where no ± is given; `share_above_one`, and refusals as `readSeries`
 */
export const parseShare = (text: string): Outcome<Measured<Share>> => parse(text, shareKind)

/**
 * A share of a whole where the question asks for percent: `15 %` or `15`. A bare number is percent.
 *
 * @returns 0 to 1, u = 0 where no ± is given; `share_above_one`, and refusals as `readSeries`
 */
export const parsePercent = (text: string): Outcome<Measured<Share>> => parse(text, percentKind)
