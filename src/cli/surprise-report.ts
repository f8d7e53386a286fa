import { causeSentence, nameOfReel, rowName, type Weighed } from '../service/index.ts'
import { grams, measured } from '../units/index.ts'
import { atFaultSentence, sayFactId } from './contradiction-sentence.ts'
import { sayMass, sayShare, upTo } from './say.ts'
import { paint, type Terminal } from './terminal.ts'
import { wrap } from './wrap.ts'

const mass = (value: number, u = 0): string => sayMass(measured(grams(value), u))

/** What was on the scale, in words. */
export const whatWasWeighed = ({ fact, view }: Weighed): string => {
  if (fact.kind === 'weighed') return fact.reel
  if (fact.reel !== undefined) return `the carrier of ${fact.reel}`
  const make = view.rows.find((row) => row.id === fact.make)
  return `a carrier of ${make?.kind === 'make' ? rowName(make) : fact.make}`
}

/** By how much a weighing is off what was expected. */
export const sayOff = ({ surprise: { innovation, off } }: Weighed): string =>
  `${mass(roundedTo(Math.abs(innovation)))} ${innovation > 0 ? 'more' : 'less'} than expected, ${sayDeviations(off)}`

/** Beyond this a count of standard deviations says no more. */
const mostDeviations = 50

const sayDeviations = (off: number): string => {
  const many = Math.abs(off)
  return many > mostDeviations
    ? `over ${mostDeviations} standard deviations`
    : `${upTo(many, 1)} standard deviations`
}

const roundedTo = (value: number): number => Number(value.toPrecision(3))

/** Of no explanation anybody is certain. */
const mostSure = 0.99

/** Causes that are worth naming. */
const worthNaming = 0.01

/** A reel that arrives is opened with this weighing; one put right was opened before. */
const isNew = ({ opened, fact }: Weighed): boolean =>
  opened !== undefined && opened.reel === fact.reel

/** A reel that weighs too little for a new one of its label, and is told neither to be new nor part-used. */
const mayBePartUsed = (weighed: Weighed): boolean =>
  isNew(weighed) &&
  weighed.opened?.part_used !== true &&
  weighed.opened?.gross_when_new === undefined &&
  weighed.surprise.innovation < 0

/** What else may be done on the command line, by the cause. */
const wayOf = ({ code, fact = '' }: Weighed['surprise']['causes'][number]): string => {
  if (code === 'print_not_recorded') return ' (reelreckon draw)'
  if (code === 'print_recorded_twice') {
    return ` (reelreckon put-right ${sayFactId(fact)} --reason 'recorded twice')`
  }
  if (code === 'extra_not_there') return ' (leave --extra out; to put it right say --extra 0g)'
  return code === 'adapter_left_on' ? ', or tell it with --extra' : ''
}

/** A weighing that was not taken: how far it is off, and what may explain it. */
export const surpriseReport = (terminal: Terminal, weighed: Weighed): string => {
  const { surprise, fact, view } = weighed
  const { value, u } = surprise.predicted
  const nameOf = (reel: string): string => {
    const card = view.cards.get(reel)
    return card === undefined ? reel : nameOfReel(card)
  }
  const lines = [
    `${paint(terminal, 'close', 'NOT RECORDED')}  ${whatWasWeighed(weighed)}: ${mass(fact.weighing.reading_g)} is surprising`,
    '',
    wrap(mass(value, u), '  expected   '),
    wrap(sayOff(weighed), '  off by     '),
  ]
  if (mayBePartUsed(weighed)) {
    lines.push(
      '',
      wrap('some of it used before it came here? Then add --part-used.', '  likely     '),
    )
  }
  // Nothing can be drawn from a reel that is not on the shelf yet.
  const causes = surprise.causes.filter(
    ({ weight, code }) =>
      weight >= worthNaming && !(isNew(weighed) && code === 'print_not_recorded'),
  )
  if (causes.length > 0) {
    lines.push('', '  What may explain it, likeliest first:')
    for (const cause of causes) {
      lines.push(
        wrap(
          causeSentence(cause, nameOf) + wayOf(cause),
          `  ${sayShare(Math.min(cause.weight, mostSure)).padStart(5)}  `,
        ),
      )
    }
  }
  for (const each of weighed.contradicted) {
    lines.push('', wrap(atFaultSentence(each, whatWasWeighed(weighed)), '  or         '))
  }
  return `${lines.join('\n')}\n`
}

/** What to type next, where nobody can be asked. */
export const afterSurprise = (command: string): string =>
  `\n${wrap(`Look again. Then repeat with the right figure or the right reel, or, if it is as it is: ${command} --accept`, '  ')}\n`
