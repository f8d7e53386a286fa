import type { CheckJson, ChecksJson, ErrorPartJson, ShelfCheckJson } from '../contract/index.ts'
import type { PrintTime } from '../print/index.ts'
import {
  callOfAll,
  drawnTogether,
  isOfThePrint,
  oneAfterAnother,
  type PrintTimes,
} from '../service/index.ts'
import { shelfFoundToJson } from './check-over-shelf.ts'
import { type CheckRow, checkRow } from './check-row.ts'
import { checkTable } from './check-table.ts'
import type { Checked, Checker } from './checker.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import type { FileAsked } from './files-asked.ts'
import { exitOf, judgedToJson, type ReelsJudged } from './judged.ts'
import { onlyForOne } from './only-for-one.ts'
import { parseFileOptions } from './parse-file-options.ts'
import { parseTool } from './parse-tool.ts'
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
      : oneAfterAnother(inTurn, { timeOf, timed }).map(keep)
  const done = all.flatMap((each) => (each instanceof Fault ? [] : [each]))
  const errors = all.flatMap((each) => (each instanceof Fault ? [each.error] : []))
  const together = inTurn === undefined ? null : togetherOf(checker, inTurn)
  const worst = callOfAll(
    [...done.map(({ row }) => row.verdict), ...(together === null ? [] : [together.whole.verdict])],
    errors.length,
  )
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

/** All prints from the reels that were told, as one; null where there is no such thing. */
const togetherOf = (
  { judge, typed }: Pick<Checker, 'judge' | 'typed'>,
  all: readonly (Checked | Fault)[],
): ReelsJudged | null => {
  const judged = all.flatMap((each) =>
    each instanceof Fault || each.kind === 'shelf' ? [] : [each],
  )
  const tools = drawnTogether(
    judged.map(({ drawn }) => drawn.tools),
    new Set((typed.tool ?? []).map((spec) => parseTool(spec).tool)),
  )
  if (tools === null) return null
  // One that may not be whole leaves all of them in doubt.
  const findings = judged.flatMap(({ drawn }) => drawn.findings)
  const total = judge({ tools, findings, prints: judged.length })
  return total.kind === 'reels' ? total : null
}

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

const timed = (
  each: Checked | Fault,
  change: (times: PrintTimes) => PrintTimes,
): Checked | Fault => {
  const known = each instanceof Fault ? undefined : timesIn(each)
  if (each instanceof Fault || known === undefined) return each
  const times = change(known)
  return each.kind === 'shelf' ? { ...each, found: { ...each.found, times } } : { ...each, times }
}

const drawnOf = (checked: Checked): Drawn =>
  checked.kind === 'shelf' ? checked.found.drawn : checked.drawn

const printOf = (checked: Checked): Pick<CheckRow, 'file' | 'member'> => {
  const { source } = drawnOf(checked)
  return { file: source!.input.file, member: source!.print.name }
}

/** Whether it says nothing about the other prints. */
export const isOfOnePrint = (error: unknown): error is Fault =>
  error instanceof Fault && isOfThePrint(error.error)

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
        if (!isOfOnePrint(error)) throw error
        const file = print.name === null ? input.file : `${input.file}, ${print.name}`
        const told: ErrorPartJson = { ...error.error, file }
        return new RefusedPrint(told, wholeTime(drawn, drawn.time))
      }
    })
