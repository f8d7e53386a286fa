import type { WaitingTold } from '../service/index.ts'
import {
  addWaiting,
  changeWaiting,
  everWaiting,
  findWaiting,
  slateOf,
  tellRunning,
  tellSlate,
  type WaitingChange,
} from '../service/index.ts'
import { usageFault } from './fault.ts'
import { motionOfTold } from './motion-of-told.ts'
import { answered, type LedgerText, lookingAtLedger, withLedger } from './open-ledger.ts'
import type { FileText } from './parse-file-options.ts'
import { readPrintRow } from './read-print-row.ts'
import { jsonText, recordCommand } from './record-command.ts'
import { run } from './run.ts'
import { slateReport } from './slate-report.ts'
import { type WaitingText, waitingTold, whole } from './slate-text.ts'

interface AddText extends WaitingText, LedgerText, FileText {
  readonly print?: string
  readonly accept?: boolean
  readonly member?: string
}

/** `reelreckon slate add` */
export const slateAddCommand = (file: string | undefined, typed: AddText): Promise<void> =>
  recordCommand(
    typed,
    async (ledger) => {
      const told = waitingTold(typed)
      if ((file === undefined) === (typed.print === undefined)) {
        throw usageFault(
          'nothing_waits',
          'Say what is to be printed: its FILE, or --print with the hash of one that was kept.',
        )
      }
      if (file === undefined) return addWaiting(ledger, { kept: typed.print! }, told)
      const motion = await motionOfTold(ledger, typed.onPrinter?.[0])
      const print = await readPrintRow(file, typed, ledger.now(), motion)
      return addWaiting(ledger, { print }, told)
    },
    [],
    withLedger,
  )

interface ChangeText extends WaitingText, LedgerText {
  readonly done?: string
  readonly forget?: readonly string[]
}

/** What can be forgotten of a waiting print, and the key of it. */
const forgettable: Readonly<Record<string, keyof WaitingTold>> = {
  tools: 'tools',
  printers: 'printers',
  due: 'due',
  importance: 'importance',
  changes: 'changes',
  takes: 'duration_h',
  note: 'note',
}

/** `reelreckon slate change` */
export const slateChangeCommand = (waiting: string, typed: ChangeText): Promise<void> =>
  recordCommand(typed, async (ledger) => {
    const { done, forget = [] } = typed
    const told = waitingTold(typed)
    const forgotten = Object.fromEntries(forget.map((word) => [keyOf(word), null]))
    const change: WaitingChange = {
      ...forgotten,
      ...told,
      ...(done !== undefined && { done: whole(done, '--done', 0, 1000) }),
    }
    return changeWaiting(ledger, waiting, change)
  })

const keyOf = (word: string): keyof WaitingTold => {
  const key = forgettable[word]
  if (key !== undefined) return key
  throw usageFault(
    'key_unknown',
    `--forget: "${word}" can not be forgotten. It takes ${Object.keys(forgettable).join(', ')}.`,
    '--forget',
  )
}

/** `reelreckon slate take-off` and `slate put-back` */
export const slateOffCommand = (
  waiting: string,
  typed: LedgerText,
  isOff: boolean,
): Promise<void> =>
  recordCommand(typed, (ledger) => changeWaiting(ledger, waiting, { off: isOff ? true : null }))

interface ListText extends LedgerText {
  readonly all?: boolean
}

/** `reelreckon slate list` */
export const slateListCommand = (waiting: string | undefined, typed: ListText): Promise<void> =>
  run(typed.json === true, (terminal) =>
    lookingAtLedger(typed, async ({ store }) => {
      const all = await store.catalogue()
      const rows =
        waiting !== undefined
          ? [answered(findWaiting(all, waiting))]
          : typed.all === true
            ? everWaiting(all)
            : slateOf(all)
      const slate = await tellSlate(store, rows)
      if (typed.json === true) return { text: jsonText(slate), exit: 0 }
      const { running } = waiting === undefined ? await tellRunning(store) : { running: [] }
      return { text: slateReport(terminal, slate, all, running), exit: 0 }
    }),
  )
