import type {
  DutyJson,
  MatchCopyJson,
  MatchJson,
  MatchReelJson,
  MeasuredJson,
} from '../contract/index.ts'
import {
  capitalised,
  formatBy,
  type Grams,
  grams,
  type Measured,
  measured,
} from '../units/index.ts'
import { planGap } from './plan-gap.ts'
import { sayChance, sayCount, sayHeight, sayMass } from './say.ts'
import { niceWhole } from './scale-drawing.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { sayBriefly } from './time-sentences.ts'
import { troughs } from './trough-drawing.ts'
import { wrap } from './wrap.ts'

/** What is wanted on the sheet beside the plan. */
export interface SheetWanted {
  readonly why: boolean
  readonly notes: boolean
}

const mass = ({ value, u }: MeasuredJson): Measured<Grams> => measured(grams(value), u)

/** A plan as a sheet: the answer, the reels as troughs with the prints laid in, then the working. */
export const matchReport = (
  terminal: Terminal,
  plan: MatchJson,
  now: number,
  { why, notes }: SheetWanted,
): string => {
  const served = plan.copies.filter(({ printer }) => printer !== null)
  const unserved = plan.copies.filter(({ printer }) => printer === null)
  const letters = lettersOf(plan)
  const changed = plan.copies.filter(({ note }) => note !== null)
  return [
    '',
    paint(terminal, unserved.length === 0 ? 'enough' : 'short', `  ${answer(plan, served)}`),
    ...said(plan).map((line) => wrap(line, '  ')),
    '',
    ...troughs(terminal, plan, letters, wholeOf(plan)),
    ...(served.length > 0 ? ['', paint(terminal, 'strong', '  Which reel for which print')] : []),
    ...plan.orders.flatMap((order) => orderLines(terminal, plan, order, letters, now, why)),
    ...(unserved.length > 0 ? ['', paint(terminal, 'strong', '  Not served')] : []),
    ...grouped(unserved).flatMap((copies) => unservedLines(copies)),
    ...(changed.length > 0
      ? [
          '',
          paint(terminal, 'strong', '  Changes in mid-print'),
          ...changed.flatMap((copy) => (notes ? noteLines(copy) : changeLines(copy))),
        ]
      : []),
    ...(plan.notes.length > 0 ? ['', ...plan.notes.map((note) => wrap(harmless(note), '  '))] : []),
    '',
    wrap(howGood(plan), '  '),
    '',
  ].join('\n')
}

const answer = ({ copies }: MatchJson, served: readonly MatchCopyJson[]): string => {
  const all = sayCount(copies.length, 'print')
  if (served.length === copies.length) {
    return copies.length === 1
      ? 'THE PRINT HAS A REEL.'
      : `ALL ${copies.length} PRINTS HAVE THEIR REELS.`
  }
  return served.length === 0
    ? `NO REEL FOR ${copies.length === 1 ? 'THE PRINT' : `ANY OF ${all.toUpperCase()}`}.`
    : `${served.length} OF ${copies.length} PRINTS ${served.length === 1 ? 'HAS ITS REEL' : 'HAVE THEIR REELS'}.`
}

const level = (plan: MatchJson, name: string): number =>
  plan.levels.filter(({ level: each }) => each === name).reduce((sum, { value }) => sum + value, 0)

const said = (plan: MatchJson): readonly string[] => {
  const late = plan.copies.filter(({ late: each }) => each).length
  const stubs = plan.reels.filter(({ stub, duties }) => stub && duties.length > 0).length
  const changes = level(plan, 'changes')
  const opened = level(plan, 'opened')
  const differ = plan.copies.filter(({ differs }) => differs).length
  const parts = [
    changes === 0 ? 'no change in mid-print' : `${sayCount(changes, 'change')} in mid-print`,
    opened === 0 ? 'no new reel opened' : `${sayCount(opened, 'new reel')} opened`,
    `${sayCount(level(plan, 'swaps'), 'reel')} to put on`,
    ...(stubs === 0 ? [] : [`${sayCount(stubs, 'stub')} left`]),
    ...(late === 0 ? [] : [`${sayCount(late, 'print')} late`]),
    ...(differ === 0 ? [] : [`${differ} otherwise than planned before`]),
  ]
  const first = parts.join(', ')
  return [`${capitalised(first)}.`]
}

const howGood = (plan: MatchJson): string => {
  const { confidence, useful_g, kept } = plan
  const sure = `Every print served finishes with ${Math.round(confidence * 1000) / 10} % or more, all that its reels do before it counted; less than ${Math.round(useful_g)} g on a reel is a stub.`
  return `${sure} ${planGap(plan)}${kept ? ' The plan is kept.' : ' Keep it with --keep.'} A verdict is a chance, not a promise; hot parts burn, and a printer at work wants someone near.`
}

/** A letter for each waiting print, as it stands in the drawing. */
const lettersOf = ({ copies }: MatchJson): ReadonlyMap<string, string> => {
  const ids = [...new Set(copies.map(({ waiting }) => waiting))]
  return new Map(ids.map((id, place) => [id, letterOf(place)]))
}

const alphabet = 'abcdefghijklmnopqrstuvwxyz'
const letterOf = (place: number): string => alphabet[place] ?? `${place + 1}`

/** The end of the scale, g: the fullest reel that does anything. */
const wholeOf = ({ reels }: MatchJson): number =>
  niceWhole(Math.max(1, ...reels.filter(doesSomething).map(({ holds_g }) => holds_g.value)))

const doesSomething = ({ duties, running }: MatchReelJson): boolean =>
  duties.length + running.length > 0

const orderLines = (
  terminal: Terminal,
  plan: MatchJson,
  { name, copies, swaps, free_h, running }: MatchJson['orders'][number],
  letters: ReadonlyMap<string, string>,
  now: number,
  why: boolean,
): readonly string[] => {
  if (copies.length === 0) return []
  const put = swaps === 0 ? '' : `, ${sayCount(swaps, 'reel')} to put on`
  const runs =
    free_h > 0
      ? `, ${running.length === 0 ? 'at work' : `runs ${running.join(' and ')}`} until ${formatBy(now + 3_600_000 * free_h, now)}`
      : ''
  return [
    `  ${harmless(`${name}${runs}`)}${paint(terminal, 'faint', put)}`,
    ...alike(
      copies.map(
        ({ waiting, copy }) =>
          plan.copies.find((each) => each.waiting === waiting && each.copy === copy)!,
      ),
    ).flatMap((same) => copyLines(plan, same, letters, now, why)),
  ]
}

/** Copies that come one after another from the same reels, and for which nobody has to come, together. */
const alike = (copies: readonly MatchCopyJson[]): readonly (readonly MatchCopyJson[])[] => {
  const groups: MatchCopyJson[][] = []
  for (const copy of copies) {
    const last = groups.at(-1)
    const isAlone = copy.puts_on.length > 0 || copy.waits_for !== null
    if (last !== undefined && !isAlone && keyOf(last[0]!) === keyOf(copy)) last.push(copy)
    else groups.push([copy])
  }
  return groups
}

const keyOf = ({ waiting, duties, late, differs }: MatchCopyJson): string =>
  JSON.stringify([
    waiting,
    late,
    differs,
    duties.map(({ tool, reel, after_layer, why }) => [tool, reel, after_layer, why]),
  ])

const titleOf = (plan: MatchJson, same: readonly MatchCopyJson[]): string => {
  const { name, waiting, copy } = same[0]!
  if (plan.copies.filter((each) => each.waiting === waiting).length === 1) return name
  return same.length === 1
    ? `${name}, copy ${copy}`
    : `${name}, copy ${copy} to ${same.at(-1)!.copy}`
}

const copyLines = (
  plan: MatchJson,
  same: readonly MatchCopyJson[],
  letters: ReadonlyMap<string, string>,
  now: number,
  why: boolean,
): readonly string[] => {
  const copy = same[0]!
  const letter = letters.get(copy.waiting) ?? ''
  const last = same.at(-1)!.ends_h
  const each = same.length > 1 ? ' each' : ''
  const hour = (hours: number): string => formatBy(now + 3_600_000 * hours, now)
  const begins =
    copy.begins_h === null ? [] : [copy.begins_h < soon_h ? 'now' : `from ${hour(copy.begins_h)}`]
  const waits =
    copy.waits_for === null
      ? []
      : [`when ${copy.waits_for} comes off ${copy.waits_at ?? 'another printer'}`]
  const ends = last === null ? [] : [`done by ${hour(last)}`]
  const head = [
    `${titleOf(plan, same)}: ${[...begins, ...waits, ...ends, sayChance(copy.chance ?? 0)].join(', ')}`,
    ...(copy.late ? ['LATE'] : []),
    ...(copy.differs ? ['otherwise than before'] : []),
  ].join(', ')
  const tools = new Set(copy.duties.map(({ tool }) => tool)).size
  return [
    wrap(harmless(head), `    ${letter}  `),
    ...copy.duties.flatMap((duty) => {
      const tool = tools > 1 ? `T${duty.tool} ` : ''
      const part =
        duty.after_layer > 0
          ? `after layer ${duty.after_layer}${changedAt(copy, duty, hour)}: `
          : duty.until_layer === null
            ? ''
            : `to layer ${duty.until_layer}: `
      const line = `${tool}${part}${duty.reel} ${duty.reel_name}, ${sayMass(mass(duty.needed_g))}${each}${putOn(copy, duty)}`
      const reasons = why ? duty.why : []
      return [wrap(harmless(line), '       ')].concat(
        reasons.map((reason) => wrap(harmless(reason), '         ')),
      )
    }),
  ]
}

/** Less than a minute is now, h. */
const soon_h = 1 / 60

/** What is to be done with the reel before the print begins; nothing where it is on. */
const putOn = (
  { puts_on, waits_for, printer_name }: MatchCopyJson,
  { tool, reel, after_layer }: DutyJson,
): string => {
  const put = puts_on.find((each) => each.tool === tool && each.reel === reel)
  if (put === undefined || after_layer > 0) return ''
  const source = put.from === printer_name ? 'another tool' : put.from
  const from = source === null || reel === waits_for ? '' : `, from ${source}`
  return `; put it on${from}${put.off === null ? '' : `, ${put.off} comes off`}`
}

/** About when the reel comes in. */
const changedAt = (
  { begins_h, changes }: MatchCopyJson,
  { tool, after_layer }: DutyJson,
  hour: (hours: number) => string,
): string => {
  const after_s = changes.find((each) => each.tool === tool && each.after_layer === after_layer)
    ?.clock?.likely_s
  return begins_h === null || after_s === undefined || after_s === null
    ? ''
    : `, about ${hour(begins_h + after_s / 3600)}`
}

/** Copies of one print that lack the same. */
const grouped = (copies: readonly MatchCopyJson[]): readonly (readonly MatchCopyJson[])[] => [
  ...Map.groupBy(copies, ({ waiting, missing, remedies }) =>
    JSON.stringify([waiting, missing, remedies]),
  ).values(),
]

const unservedLines = (copies: readonly MatchCopyJson[]): readonly string[] => {
  const [one] = copies
  if (one === undefined) return []
  const count = copies.length > 1 ? `, ${copies.length} copies` : ''
  return [
    wrap(harmless(`${one.name}${count}`), '  '),
    ...one.missing.map(({ words }) => wrap(harmless(words), '    ')),
    ...one.remedies.map(({ words, command }, place) => {
      const how = command === null ? '' : ` Do it with reelreckon ${command}.`
      return wrap(harmless(`${place === 0 ? '' : 'or: '}${words}${how}`), '    ')
    }),
  ]
}

const changeLines = ({ name, changes }: MatchCopyJson): readonly string[] =>
  changes.map(({ after_layer, height_mm, from, to, stays_g, cost_g, clock }) =>
    wrap(
      harmless(
        `${name}: after layer ${after_layer} (${sayHeight(height_mm)}${clock === null ? '' : `, about ${sayBriefly(clock)} after the start`}) from ${from} to ${to}; ${sayMass(mass(stays_g))} stay on ${from}, and the change takes ${sayMass(mass(cost_g))} of ${to}. --notes writes the note for the printer; reelreckon pause puts the stop into a copy of the file.`,
      ),
      '  ',
    ),
  )

const noteLines = ({ note }: MatchCopyJson): readonly string[] => [
  `  ${'┄'.repeat(60)}`,
  ...(note ?? '').split('\n').map((line) => wrap(harmless(line.trimEnd()), '  ', '     ')),
  `  ${'┄'.repeat(60)}`,
]
