import type { MatchCopyJson, MatchJson } from '../../contract/index.ts'
import { formatBy } from '../../units/index.ts'
import type { DutyPicture, TroughPicture } from '../slate/plan-picture.ts'
import { type MassUnit, markOf, showChance, showMass } from './show-figure.ts'

const count = new Intl.NumberFormat('en-GB')
const several = (many: number, one: string, more: string): string =>
  many === 1 ? `one ${one}` : `${count.format(many)} ${more}`

const whole = (mass_g: number, unit: MassUnit): string =>
  `${count.format(Math.round(markOf(mass_g, unit)))} ${unit}`

/** Which layers of its print a reel feeds. */
const part = ({
  after_layer: after,
  until_layer: until,
}: Pick<DutyPicture, 'after_layer' | 'until_layer'>): string => {
  if (after === 0 && until === null) return ''
  if (until === null) return `, from layer ${count.format(after + 1)} on`
  if (after === 0) return `, up to layer ${count.format(until)}`
  return `, layers ${count.format(after + 1)} to ${count.format(until)}`
}

type Level = MatchJson['levels'][number]

const amounts: Readonly<Record<string, (value: number, unit: MassUnit) => string>> = {
  unserved: (value) => several(value, 'copy not served', 'copies not served'),
  late: (value) => several(value, 'copy late', 'copies late'),
  changes: (value) => several(value, 'change in mid-print', 'changes in mid-print'),
  opened: (value) => several(value, 'new reel opened', 'new reels opened'),
  different: (value) => several(value, 'choice otherwise than kept', 'choices otherwise than kept'),
  stubs: (value, unit) => `${whole(value, unit)} left in stubs`,
  swaps: (value) => several(value, 'reel put on', 'reels put on'),
}

const amount = ({ level, importance }: Level, value: number, unit: MassUnit): string => {
  const said = amounts[level]?.(value, unit) ?? `${level} ${value}`
  return importance === null || importance === 0 ? said : `${said} (importance ${importance})`
}

/** When a change in mid-print comes, hours from the plan; null where that is not known. */
const changedAt = (
  { begins_h: begins }: MatchCopyJson,
  { clock }: MatchCopyJson['changes'][number],
): number | null =>
  begins === null || clock?.likely_s === undefined || clock.likely_s === null
    ? null
    : begins + clock.likely_s / 3600

/** Words of the plan that a match finds. */
export const planWords = {
  title: 'Which reel for which print',
  lead: 'All prints together: the most important first, nothing late, few changes and few reels opened, little left in stubs.',
  sureTo: 'Sure to',
  confidences: [
    ['0.9', '90 %'],
    ['0.95', '95 %'],
    ['0.99', '99 %'],
    ['0.999', '99.9 %'],
  ] as const,
  match: 'Match them',
  again: 'Match them anew',
  matching: (done: number): string => `Matching: ${Math.round(100 * done)} % of the slate`,
  stop: 'Stop',
  stopMatch: 'Stop, and show the best so far',
  startNotCounted: (file: string): string =>
    `${file} runs, but only this browser knows it: what it takes is not counted in a plan until the server has it.`,
  changeNotCounted: (file: string): string =>
    `Of ${file}, which runs, only this browser knows what changed: a plan counts it as it was before.`,
  stopped: 'Stopped. The plan is what it was before.',
  takenOff: (marks: readonly string[], name: string): string =>
    `${marks.join(', ')} ${name} is not on the slate any more: this plan still has it.`,
  reel: (reel: string): string => `Reel ${reel}`,
  state: ({ imagined, opened }: TroughPicture): string => {
    if (imagined) return 'as if there were one, holds'
    return opened ? 'to be opened, holds' : 'holds'
  },
  trough: (
    { reel, holds_g, left_g, tail_g, running, duties }: TroughPicture,
    unit: MassUnit,
  ): string => {
    const laid = [...running.map((runs) => ({ ...runs, mark: planWords.now })), ...duties].map(
      ({ mark, needed_g }) => `${mark} ${showMass(needed_g, unit)}`,
    )
    return `Reel ${reel} as a trough of ${showMass(holds_g, unit)}. Laid in: ${laid.join(', ')}. Left: ${showMass(left_g, unit)}, of which ${showMass(tail_g, unit)} can not be printed.`
  },
  what: (duty: DutyPicture): string =>
    `${duty.name}${duty.tellsTool ? `, T${duty.tool}` : ''}${part(duty)}`,
  where: ({ printer, late, differs, waitsFor, waitsAt }: DutyPicture): string =>
    [
      `on ${printer}`,
      ...(waitsFor === null ? [] : [planWords.waits(waitsFor, waitsAt)]),
      ...(late ? ['late'] : []),
      ...(differs ? ['otherwise than kept'] : []),
    ].join(', '),
  now: 'now',
  runs: (runs: TroughPicture['running'][number]): string =>
    `runs on ${runs.printer_name}${part(runs)}${runs.until_layer === null ? `; the reel lasts for it with ${showChance(runs.chance)}` : '; the reel has come off'}`,
  about: 'Why?',
  aboutOf: ({ mark, name, reel }: DutyPicture): string => `Why ${mark}, ${name}, from ${reel}?`,
  left: ({ stub, chance }: TroughPicture): string =>
    `${stub ? 'left, a stub' : 'left'}; it lasts with ${showChance(chance)}`,
  noReason: 'No other reel would do it as well.',
  keepSo: (reels: readonly string[]): string => `Keep it on ${reels.join(' and ')}`,
  notFrom: (reel: string): string => `Not from ${reel}`,
  leaveOut: (name: string): string => `Leave ${name} out`,
  pickReel: 'Another reel',
  otherReel: 'Take it from there',
  unserved: 'Not served',
  unservedOf: (mark: string, { name }: MatchCopyJson): string => `${mark}  ${name}`,
  idle: (many: number): string =>
    `${several(many, 'more reel fits', 'more reels fit')} and ${many === 1 ? 'is' : 'are'} not asked for anything.`,
  outcome: ({ levels, copies }: MatchJson, unit: MassUnit): string => {
    const left = copies.filter(({ printer }) => printer === null).length
    const served =
      left === 0
        ? 'All are served'
        : `${several(copies.length - left, 'copy is', 'copies are')} served, ${count.format(left)} not`
    const told = levels
      .filter(({ level, value }) => level !== 'unserved' && level !== 'swaps' && value > 0.5)
      .map((level) => amount(level, level.value, unit))
    return `${[served, ...told].join('; ')}.`
  },
  gap: ({ ended, proven, levels }: MatchJson, unit: MassUnit): string => {
    if (proven) return 'Proven: no plan is better.'
    const open = levels.find(({ value, bound }) => value - bound > 0.5)
    if (open === undefined) return 'As good as the best there is, as far as it was proven.'
    const why =
      ended === 'time'
        ? 'The time limit ended the search'
        : ended === 'cancelled'
          ? 'You ended the search; this is the best so far, and not proven'
          : 'The search ended early'
    const best = Math.max(0, open.bound)
    const least =
      open.level === 'stubs' ? whole(best, unit) : count.format(Math.max(0, Math.ceil(best - 1e-6)))
    return `${why}: ${amount(open, open.value, unit)}; the best could have ${least}.`
  },
  asked: 'What if',
  letGo: 'Let it go',
  letGoOf: (what: string): string => `Let it go: ${what}`,
  locked: (name: string, reel: string): string => `${name} from ${reel}`,
  barred: (name: string | null, reel: string): string =>
    name === null ? `nothing from ${reel}` : `${name} not from ${reel}`,
  dropped: (name: string): string => `without ${name}`,
  oneMore: (make: string): string => `one more reel of ${make}`,
  addReel: 'One more reel of',
  addReelPress: 'As if it were there',
  orders: 'What to do at each printer',
  waits: (reel: string, printer: string | null): string =>
    `when ${reel} comes off ${printer ?? 'another printer'}`,
  atWork: ({ running, free_h }: MatchJson['orders'][number], at: number): string =>
    free_h > 0
      ? `${running.length === 0 ? 'at work' : `runs ${running.join(' and ')}`} until ${planWords.doneBy(free_h, at)}`
      : '',
  /** @param begins_h - hours from `at`, ms since 1970 */
  begins: (begins_h: number | null, at: number): string =>
    begins_h !== null && begins_h < 1 / 60
      ? `now, ${planWords.doneBy(0, at)}`
      : planWords.doneBy(begins_h, at),
  /** What is to be done for a copy, and with which reels it begins. */
  turn: (copy: MatchCopyJson, at: number): string => {
    const { duties, puts_on, waits_for, waits_at, late, printer_name } = copy
    const first = duties.filter(({ after_layer }) => after_layer === 0)
    const named = ({ tool, reel }: (typeof first)[number]): string =>
      first.length > 1 ? `${reel} for T${tool}` : reel
    const puts = puts_on.map(({ tool, reel, off, from }) => {
      const place = from === printer_name ? 'another tool' : from
      const source = place === null || reel === waits_for ? '' : ` from ${place}`
      const gone = off === null ? '' : ` (${off} comes off)`
      return `${named(first.find((each) => each.tool === tool)!)}${source}${gone}`
    })
    const on = first.filter(({ tool }) => !puts_on.some((each) => each.tool === tool)).map(named)
    const reels = [
      ...(puts.length === 0 ? [] : [`put on ${puts.join(' and ')}`]),
      ...(on.length === 0 ? [] : [`${on.join(' and ')} ${on.length === 1 ? 'is' : 'are'} on`]),
    ]
    const waits = waits_for === null ? [] : [planWords.waits(waits_for, waits_at)]
    const changes = copy.changes.map((change) => {
      const hour = changedAt(copy, change)
      const about = hour === null ? '' : `, about ${planWords.doneBy(hour, at)}`
      return `after layer ${count.format(change.after_layer)}${about}: ${change.to} in place of ${change.from}`
    })
    return [...waits, ...reels, ...changes, ...(late ? ['late'] : [])].join('; ')
  },
  swaps: (many: number): string => several(many, 'reel put on', 'reels put on'),
  /** @param ends_h - hours from `at`, ms since 1970 */
  doneBy: (ends_h: number | null, at: number): string =>
    ends_h === null ? '' : formatBy(at + 3_600_000 * ends_h, at),
  allDone: (ends_h: number | null, at: number): string =>
    ends_h === null ? '' : `, done by ${planWords.doneBy(ends_h, at)}`,
  notes: 'Notes by the printer',
  keepPlan: 'Keep this plan',
  keptPlan: 'It is kept: the next match differs from it as little as it can.',
  workSheet: 'Print the work sheet',
  table: 'The same as a table',
  headings: ['Print', 'Printer', 'Done by', 'Reel', 'Takes', 'Chance'],
  chance: (chance: number | null): string => (chance === null ? '' : showChance(chance)),
  copyOf: 'A copy that waits there',
  copyHow: (name: string): string =>
    `Choose the file of ${name} again: a copy of it waits for you after the layers named, everything else byte for byte. It is sent to your server, which keeps nothing of it.`,
  chooseFile: 'Choose the file',
  wrongFile: (name: string): string => `That is another file than ${name} on the slate.`,
  family: 'The printer’s firmware',
  copying: 'Making the copy …',
  copied: 'The copy is downloaded. It was read again and draws the same.',
  copyStopped: 'Stopped. No copy was made.',
} as const
