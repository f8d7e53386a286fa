import type { ChecksJson, ErrorPartJson } from '../contract/index.ts'
import type { Verdict } from '../verdict/index.ts'
import { shelfFoundToJson } from './check-over-shelf.ts'
import { type CheckRow, checkRow } from './check-row.ts'
import { checkTable } from './check-table.ts'
import type { Checked, Checker } from './checker.ts'
import { exitCode, Fault } from './fault.ts'
import type { FileAsked } from './files-asked.ts'
import { exitOf, judgedToJson } from './judged.ts'
import { onlyForOne } from './only-for-one.ts'
import { parseFileOptions } from './parse-file-options.ts'
import type { Input } from './read-input.ts'
import { readMany } from './read-many.ts'
import type { Result } from './run.ts'
import type { Terminal } from './terminal.ts'
import { drawnOfPrint } from './what-is-drawn.ts'

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
  const results = await readMany(files, parseFileOptions(typed), (input) =>
    judge(input).map((each) => (each instanceof Fault ? each : kept(each, inJson))),
  )
  const all = results.flat()
  const done = all.flatMap((each) => (each instanceof Fault ? [] : [each]))
  const errors = all.flatMap((each) => (each instanceof Fault ? [each.error] : []))
  const worst = worstOf(done.map(({ row }) => row))
  const exit = errors.length > 0 || worst === null ? exitCode.unreadable : exitOf[worst]
  const text = inJson
    ? `${JSON.stringify({ verdict: worst, checks: done.map(({ json }) => json!), errors } satisfies ChecksJson, null, 2)}\n`
    : checkTable(
        terminal,
        done.map(({ row }) => row),
        errors,
      )
  return { text, exit }
}

/** Of a judged print only what is told is kept: there may be many. */
const kept = (
  checked: Checked,
  inJson: boolean,
): { readonly row: CheckRow; readonly json?: ChecksJson['checks'][number] } => ({
  row: checkRow(checked, printOf(checked)),
  ...(inJson && {
    json:
      checked.kind === 'shelf'
        ? shelfFoundToJson(checked.found, { all: false, most: mostReels })
        : judgedToJson(checked),
  }),
})

const printOf = (checked: Checked): Pick<CheckRow, 'file' | 'member'> => {
  const { source } = checked.kind === 'shelf' ? checked.found.drawn : checked.drawn
  return { file: source!.input.file, member: source!.print.name }
}

/** What is wrong with one print only, and says nothing about the others. */
const ofThePrint: ReadonlySet<string> = new Set([
  'tool_not_used',
  'tool_without_reel',
  'reel_without_tool',
])

/** Judges every print of a file; those that the reels told do not suit are refused one by one. */
export const judgeEach =
  ({ judge }: Pick<Checker, 'judge'>) =>
  (input: Input): readonly (Checked | Fault)[] =>
    input.print.prints.map((print) => {
      try {
        return judge(drawnOfPrint(input, print))
      } catch (error) {
        if (!(error instanceof Fault) || !ofThePrint.has(error.error.code)) throw error
        const file = print.name === null ? input.file : `${input.file}, ${print.name}`
        const told: ErrorPartJson = { ...error.error, file }
        return new Fault(exitCode.unreadable, told)
      }
    })

const order: readonly Verdict[] = ['enough', 'close', 'short']

const worstOf = (rows: readonly CheckRow[]): Verdict | null =>
  order.findLast((verdict) => rows.some((row) => row.verdict === verdict)) ?? null
