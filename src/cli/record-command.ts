import { type Recorded, recordedToJson, type Said } from '../service/index.ts'
import type { Outcome } from '../units/index.ts'
import {
  answered,
  type LedgerText,
  type OpenLedger,
  withKnownLedger,
  type withLedger,
} from './open-ledger.ts'
import { recordedReport, type SheetLine } from './recorded-report.ts'
import { run } from './run.ts'

/** What every command that records takes. */
export interface RecordText extends LedgerText {
  readonly note?: string
}

/** What a person said beside the fact. */
export const saidOf = ({ at }: OpenLedger, { note }: RecordText): Said => ({
  ...(at !== undefined && { at }),
  ...(note !== undefined && { note }),
})

/** JSON as every command writes it. */
export const jsonText = (data: unknown): string => `${JSON.stringify(data, null, 2)}\n`

/**
 * Runs a use case that records, and tells what was recorded.
 *
 * @param more - lines of the sheet before those of the facts
 * @param open - `withLedger` for what may be the first that is told of a shelf
 */
export const recordCommand = (
  typed: RecordText,
  act: (ledger: OpenLedger, said: Said) => Promise<Outcome<Recorded>>,
  more: readonly SheetLine[] = [],
  open: typeof withLedger = withKnownLedger,
): Promise<void> =>
  run(typed.json === true, (terminal) =>
    open(typed, async (ledger) => {
      const recorded = answered(await act(ledger, saidOf(ledger, typed)))
      const text =
        typed.json === true
          ? jsonText(recordedToJson(recorded))
          : recordedReport(terminal, recorded, more)
      return { text, exit: 0 }
    }),
  )
