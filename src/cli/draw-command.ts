import { type DrawInput, recordDraw, type ToolFed } from '../service/index.ts'
import { parseDuration, parseLength } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { bare, keyedList } from './keyed-list.ts'
import { motionOfTold } from './motion-of-told.ts'
import { type FileText, parseFileOptions } from './parse-file-options.ts'
import { parseLayer } from './parse-layer.ts'
import { parseStop } from './parse-stop.ts'
import { readPrintRow } from './read-print-row.ts'
import { type RecordText, recordCommand } from './record-command.ts'
import { taken } from './taken.ts'

/** What was typed after `draw`. */
export interface DrawText extends RecordText, FileText {
  readonly reel?: string
  readonly tool?: readonly string[]
  readonly printer?: string
  readonly stoppedAt?: string
  readonly ranDry?: boolean
  readonly accept?: boolean
  readonly length?: string
  readonly took?: string
  readonly print?: string
  readonly member?: string
  readonly waiting?: string
  readonly notOfSlate?: boolean
}

/** `reelreckon draw`: a print, or a length, was fed. */
export const drawCommand = (file: string | undefined, typed: DrawText): Promise<void> =>
  recordCommand(typed, async (ledger, said) => {
    const { length, print, printer, stoppedAt, firmware } = typed
    const given = [file, length, print].filter((each) => each !== undefined)
    if (given.length !== 1) {
      throw usageFault(
        given.length === 0 ? 'nothing_drawn' : 'too_much_drawn',
        given.length === 0
          ? 'Say what was printed: its FILE, or --print with the hash of one that was kept, or --length 12.3m.'
          : 'A FILE, --print and --length stand for the same thing: give one of them.',
      )
    }
    const { firmware: family } = parseFileOptions(typed)
    const input: DrawInput = {
      ...said,
      ...(typed.accept === true && { accept: true }),
      reels: reelsFed(typed),
      ...(printer !== undefined && { printer }),
      ...(family !== undefined && { firmware: family }),
      ...(stoppedAt !== undefined && parseStop(stoppedAt, '--stopped-at')),
      ...(print !== undefined && { kept: print }),
      ...(length !== undefined && { length_mm: lengthFed(length) }),
      ...waitingOf(typed),
      ...(typed.took !== undefined && { took_s: taken(parseDuration(typed.took), '--took') }),
    }
    if (file === undefined) {
      for (const option of ['eUnit', 'eMode', 'madeFor', 'member'] as const) {
        if (typed[option] === undefined) continue
        const name = `--${option.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`
        throw usageFault('needs_a_file', `${name} is about a file, and none is given.`, name)
      }
      if (length !== undefined && firmware !== undefined) {
        throw usageFault(
          'needs_a_file',
          '--firmware is about a print, and none is given.',
          '--firmware',
        )
      }
      return recordDraw(ledger, input)
    }
    const motion = await motionOfTold(ledger, printer)
    const kept = await readPrintRow(file, typed, ledger.now(), motion)
    return recordDraw(ledger, { ...input, print: kept })
  })

/** Which waiting print it was. */
const waitingOf = ({ waiting, notOfSlate }: DrawText): Pick<DrawInput, 'waiting'> => {
  if (notOfSlate !== true) return waiting === undefined ? {} : { waiting }
  if (waiting === undefined) return { waiting: null }
  throw usageFault(
    'waiting_twice',
    '--waiting says which print of the slate it was, and --not-of-slate that it was none. Give one of them.',
    '--waiting',
  )
}

const lengthFed = (typed: string): number => {
  const { value, u } = taken(parseLength(typed, 'm'), '--length')
  if (u === 0 && value > 0) return value
  throw usageFault(
    u === 0 ? 'nothing_drawn' : 'no_uncertainty_here',
    '--length is what the printer was asked to feed, one figure without ±, as 12.3m.',
    '--length',
  )
}

const reelsFed = ({ reel, tool = [], ranDry }: DrawText): readonly ToolFed[] => {
  const reels = tool.map(toolFed)
  if (reel !== undefined) reels.unshift({ reel })
  if (ranDry !== true) return reels
  const [only, ...more] = reels
  if (only !== undefined && more.length === 0) return [{ ...only, ranDry: true }]
  throw usageFault(
    'which_ran_dry',
    "Say which reel ran dry, beside its tool: --tool 'T1: reel=ID, ran-dry'.",
    '--ran-dry',
  )
}

const toolFed = (typed: string): ToolFed => {
  const [, number, rest] = /^\s*T?(\d{1,2})\s*:(.*)$/is.exec(typed) ?? []
  const keys =
    rest === undefined ? undefined : keyedList(rest, ['reel', 'ran-dry', 'after-layer'], '--tool')
  const reel = keys?.get('reel')
  if (reel === undefined || reel === '') {
    throw usageFault(
      'tool_malformed',
      `--tool: "${typed}" does not say which reel fed which tool. Write for example --tool 'T0: reel=K7RMY'.`,
      '--tool',
    )
  }
  bare('ran-dry', keys?.get('ran-dry') ?? '', '--tool')
  const after = keys?.get('after-layer')
  return {
    tool: Number(number),
    reel,
    ...(keys?.has('ran-dry') === true && { ranDry: true }),
    ...(after !== undefined && {
      afterLayer: parseLayer(after, {
        code: 'tool_malformed',
        option: '--tool',
        how: "Write for example --tool 'T0: reel=K7RMY, after-layer=120'.",
      }),
    }),
  }
}
