import { listPriors, type PriorListed, priorsToJson, setPrior } from '../service/index.ts'
import { type Measured, measured, parseDensity, parseLength, parseMass } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { answered, type LedgerText, lookingAtLedger, withLedger } from './open-ledger.ts'
import { jsonText, recordCommand } from './record-command.ts'
import { run } from './run.ts'
import { taken } from './taken.ts'
import { wrap } from './wrap.ts'

/** `reelreckon priors list` */
export const priorsListCommand = (typed: LedgerText): Promise<void> =>
  run(typed.json === true, () =>
    lookingAtLedger(typed, async (ledger) => {
      const priors = answered(await listPriors(ledger))
      const text =
        typed.json === true ? jsonText(priorsToJson(priors)) : `${priors.map(sheetOf).join('\n')}\n`
      return { text, exit: 0 }
    }),
  )

/** As it was written down, not rounded: it is a setting. */
const say = ({ value, u }: Measured, unit: string): string =>
  `${value} ± ${u} ${unit === '1' ? '' : unit}`.trim()

const sayLearnt = ({ factor, told }: NonNullable<PriorListed['learnt']>): string => {
  const times = `${factor.toPrecision(2)} times as wide`
  return told ? `learnt: ${times}` : `taken ${times}, as nothing tells of it yet`
}

const sheetOf = ({ key, prior, own, learnt }: PriorListed): string => {
  const usual = say(prior, prior.unit)
  const value = own === undefined ? usual : `${say(own, prior.unit)}, not the usual ${usual}`
  const wide = learnt === undefined ? '' : `; ${sayLearnt(learnt)}`
  return `${key}: ${value}${wide}\n${wrap(`${prior.source.where} (${prior.source.standing})`, '    ')}`
}

/** The word that takes a prior back. */
const usualWord = 'usual'

/** `reelreckon priors set` */
export const priorsSetCommand = (key: string, value: string, typed: LedgerText): Promise<void> =>
  recordCommand(
    typed,
    async (ledger) => {
      if (value.trim().toLowerCase() === usualWord) return setPrior(ledger, key, undefined)
      const prior = answered(await listPriors(ledger)).find((each) => each.key === key)?.prior
      // Of a key that nobody knows the use case says so.
      const { value: mean, u } = prior === undefined ? measured(0) : valueOf(value, prior.unit)
      return setPrior(ledger, key, { value: mean, u })
    },
    [],
    withLedger,
  )

const valueOf = (typed: string, unit: string): Measured => {
  if (unit === 'g') return taken(parseMass(typed), 'VALUE')
  if (unit === 'mm') return taken(parseLength(typed), 'VALUE')
  if (unit === 'g/cm³') return taken(parseDensity(typed), 'VALUE')
  const [, mean, u] =
    /^\s*(-?\d+(?:[.,]\d+)?)\s*(?:±|\+\/?-)\s*(\d+(?:[.,]\d+)?)\s*$/.exec(typed) ?? []
  if (mean !== undefined && u !== undefined) {
    return measured(Number(mean.replace(',', '.')), Number(u.replace(',', '.')))
  }
  throw usageFault(
    'prior_malformed',
    `VALUE: "${typed}" is no number with its doubt. Write for example '1.005 ± 0.015'.`,
  )
}
