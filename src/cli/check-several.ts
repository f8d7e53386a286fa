import type { CheckJson, ChecksJson, ErrorPartJson, ShelfCheckJson } from '../contract/index.ts'
import { type PlannedRun, runInTurn } from '../estimate/index.ts'
import type { PrintTime } from '../print/index.ts'
import type { PrintTimes } from '../service/index.ts'
import type { Verdict } from '../verdict/index.ts'
import { shelfFoundToJson } from './check-over-shelf.ts'
import { type CheckRow, checkRow } from './check-row.ts'
import { checkTable } from './check-table.ts'
import type { Checked, Checker } from './checker.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import type { FileAsked } from './files-asked.ts'
import { exitOf, judgedToJson, type ReelsJudged } from './judged.ts'
import { onlyForOne } from './only-for-one.ts'
import { parseFileOptions } from './parse-file-options.ts'
import type { Input } from './read-input.ts'
import { readMany } from './read-many.ts'
import type { Result } from './run.ts'
import type { Terminal } from './terminal.ts'
import { type Drawn, doubtOfFile, drawnOfPrint } from './what-is-drawn.ts'

/** Of a shelf so many reels are told for each tool. */
const mostReels = 5

/** Prints judged each by itself, as if it were the next one. */
export const checkSeveral = async (
  terminal: Terminal,
  files: readonly FileAsked[],
  checker: Checker,
): Promise<Result> => {
  const { typed } = checker
  onlyForOne(typed)
  const judge = judgeEach(checker)
  const inJson = typed.json === true
  const now = Date.now()
  const keep = (each: Checked | Fault): Kept | Fault =>
    each instanceof Fault ? each : kept(each, inJson, now)
  const options = { ...parseFileOptions(typed), motion: checker.motion ?? {} }
  const inTurn = inTurnAsked(typed) ? (await readMany(files, options, judge)).flat() : undefined
  const all =
    inTurn === undefined
      ? (await readMany(files, options, (input) => judge(input).map(keep))).flat()
      : oneAfterAnother(inTurn).map(keep)
  const done = all.flatMap((each) => (each instanceof Fault ? [] : [each]))
  const errors = all.flatMap((each) => (each instanceof Fault ? [each.error] : []))
  const together = inTurn === undefined ? null : togetherOf(checker, inTurn)
  const worst = worstOf([
    ...done.map(({ row }) => row.verdict),
    ...(together === null ? [] : [together.whole.verdict]),
  ])
  const exit = errors.length > 0 || worst === null ? exitCode.unreadable : exitOf[worst]
  const text = inJson
    ? `${JSON.stringify({ verdict: worst, checks: done.map(({ json }) => json!), together: together && judgedToJson(together), errors } satisfies ChecksJson, null, 2)}\n`
    : checkTable(
        terminal,
        done.map(({ row }) => row),
        errors,
        inTurn && { uncounted: firstUncounted(inTurn), together },
      )
  return { text, exit }
}

/** Of a judged print only what is told is kept: there may be many. */
interface Kept {
  readonly row: CheckRow
  readonly json?: ChecksJson['checks'][number]
}

const kept = (checked: Checked, inJson: boolean, now: number): Kept => ({
  row: checkRow(checked, printOf(checked), now),
  ...(inJson && { json: checkedToJson(checked) }),
})

/** A judged print on the wire, as one of several. */
export const checkedToJson = (checked: Checked): CheckJson | ShelfCheckJson =>
  checked.kind === 'shelf'
    ? shelfFoundToJson(checked.found, { all: false, most: mostReels })
    : judgedToJson(checked)

/** Equal for two verdicts on one print that a person would not tell apart. */
export const callInBrief = (checked: Checked): string => {
  if (checked.kind === 'shelf') {
    const { verdict, chance, taken } = checked.found
    return `${verdict} ${chance.toFixed(3)} ${taken.join(' ')}`
  }
  const { verdict, chance } = checked.whole
  return `${verdict} ${chance.toFixed(3)}`
}

/**
 * All prints from the reels that were told, as if they were one: what each tool is asked, by the longest
 * reading of each file, and the start allowance of each. The spread of a print's own feed is then taken as
 * that of one long print, which is wider.
 *
 * @returns null where fewer than two were judged, or they do not all use the same tools
 */
const togetherOf = (
  { judge }: Pick<Checker, 'judge'>,
  all: readonly (Checked | Fault)[],
): ReelsJudged | null => {
  const judged = all.flatMap((each) =>
    each instanceof Fault || each.kind === 'shelf' ? [] : [each],
  )
  const [first, ...others] = judged
  if (first === undefined || others.length === 0) return null
  if (others.some((each) => toolsOf(each) !== toolsOf(first))) return null
  const starts_mm = others.reduce((sum, { printer }) => sum + printer.startAllowance_mm.value, 0)
  const tools = first.drawn.tools.map(({ tool }, place) => {
    const longest = judged.map(({ drawn }) =>
      Math.max(...drawn.tools[place]!.draw.map(({ peak_mm }) => peak_mm)),
    )
    const peak_mm = longest.reduce((sum, each) => sum + each, starts_mm)
    return { tool, draw: [{ weight: 1, peak_mm }] }
  })
  // One that may not be whole leaves all of them in doubt.
  const total = judge({ tools, findings: judged.flatMap(({ drawn }) => drawn.findings) })
  return total.kind === 'reels' ? total : null
}

const toolsOf = ({ drawn: { tools } }: ReelsJudged): string => tools.map(({ tool }) => tool).join()

/** @throws Fault where nobody has told when the first begins */
const inTurnAsked = ({ inTurn, start }: Checker['typed']): boolean => {
  if (inTurn === true && start === undefined) throw needsStart()
  return inTurn === true
}

const needsStart = (): Error =>
  usageFault(
    'needs_start',
    '--in-turn tells when each print begins and ends: say with --start when the first begins.',
    '--in-turn',
  )

/**
 * Prints of one printer: each begins when the one before is done and a person has taken it off. After one
 * of which nobody knows how long it takes none is told when it begins.
 */
const oneAfterAnother = (all: readonly (Checked | Fault)[]): readonly (Checked | Fault)[] => {
  const runs: PlannedRun[] = []
  let isKnown = true
  return all.map((each) => {
    const before = runs.length === 0 ? undefined : runInTurn(runs)
    const timed = isKnown ? timedAfter(each, before) : timedApart(each)
    const time = timeOf(each)
    if (time === undefined) isKnown = false
    else {
      runs.push({ planned_s: time.total_s, waits: [...time.waits, { kind: 'person', times: 1 }] })
    }
    return timed
  })
}

/** The first print of which nobody knows how long it takes, where others come after it. */
const firstUncounted = (all: readonly (Checked | Fault)[]): string | null => {
  const place = all.findIndex((each) => timeOf(each) === undefined)
  const each = all[place]
  const after = all.slice(place + 1)
  if (each === undefined || after.every((later) => later instanceof Fault)) return null
  return each instanceof Fault ? each.error.file : printOf(each).file
}

const timesIn = (each: Checked): PrintTimes | undefined =>
  each.kind === 'shelf' ? each.found.times : each.times

/** Of one that was refused, too, where its file was read; not of one that may not be the whole print. */
const timeOf = (each: Checked | Fault): PrintTime | undefined => {
  if (each instanceof RefusedPrint) return each.time
  return each instanceof Fault ? undefined : wholeTime(drawnOf(each), timesIn(each)?.time)
}

const wholeTime = (drawn: Drawn, time: PrintTime | undefined): PrintTime | undefined =>
  doubtOfFile(drawn) === undefined ? time : undefined

const withTimes = (each: Checked, times: PrintTimes): Checked =>
  each.kind === 'shelf' ? { ...each, found: { ...each.found, times } } : { ...each, times }

const timedAfter = (each: Checked | Fault, before: PlannedRun | undefined): Checked | Fault => {
  const times = each instanceof Fault ? undefined : timesIn(each)
  if (each instanceof Fault || times === undefined || before === undefined) return each
  return withTimes(each, { ...times, before })
}

/** With how long it takes, and no time of day. */
const timedApart = (each: Checked | Fault): Checked | Fault => {
  const times = each instanceof Fault ? undefined : timesIn(each)
  if (each instanceof Fault || times === undefined) return each
  const { start: _start, ...apart } = times
  return withTimes(each, apart)
}

const drawnOf = (checked: Checked): Drawn =>
  checked.kind === 'shelf' ? checked.found.drawn : checked.drawn

const printOf = (checked: Checked): Pick<CheckRow, 'file' | 'member'> => {
  const { source } = drawnOf(checked)
  return { file: source!.input.file, member: source!.print.name }
}

/** What is wrong with one print only, and says nothing about the others. */
const ofThePrint: ReadonlySet<string> = new Set([
  'tool_not_used',
  'tool_without_reel',
  'reel_without_tool',
])

export const isOfThePrint = (error: unknown): error is Fault =>
  error instanceof Fault && ofThePrint.has(error.error.code)

/** A print that was read, and that the reels told do not suit. */
class RefusedPrint extends Fault {
  readonly time: PrintTime | undefined
  constructor(error: ErrorPartJson, time: PrintTime | undefined) {
    super(exitCode.unreadable, error)
    this.time = time
  }
}

/** Judges every print of a file; those that the reels told do not suit are refused one by one. */
export const judgeEach =
  ({ judge }: Pick<Checker, 'judge'>) =>
  (input: Input): readonly (Checked | Fault)[] =>
    input.print.prints.map((print) => {
      const drawn = drawnOfPrint(input, print)
      try {
        return judge(drawn)
      } catch (error) {
        if (!isOfThePrint(error)) throw error
        const file = print.name === null ? input.file : `${input.file}, ${print.name}`
        const told: ErrorPartJson = { ...error.error, file }
        return new RefusedPrint(told, wholeTime(drawn, drawn.time))
      }
    })

const order: readonly Verdict[] = ['enough', 'close', 'short']

const worstOf = (verdicts: readonly Verdict[]): Verdict | null =>
  order.findLast((verdict) => verdicts.includes(verdict)) ?? null
