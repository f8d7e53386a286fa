import type {
  CheckJson,
  DrawRequest,
  EventRequest,
  ImportJson,
  KeptJson,
  LearntJson,
  MakeFactsJson,
  MatchJson,
  MatchRequest,
  MayJson,
  MeasuredJson,
  MeasureRequest,
  NewTokenJson,
  PlanRequest,
  PriorsJson,
  PutRightRequest,
  RecordedJson,
  ReelLifeJson,
  ReelListJson,
  ReelRequest,
  ReelShowJson,
  RowRequest,
  RowsJson,
  RunningChangeRequest,
  RunningPrintsJson,
  RunningRequest,
  SessionJson,
  SheetRequest,
  ShelfCheckJson,
  SlateJson,
  SupposedJson,
  TableHeadJson,
  TableRequest,
  TokensJson,
  WaitingChangeRequest,
  WaitingRequest,
  WeighRequest,
} from '../../contract/index.ts'
import type { PrintReading } from '../../print/index.ts'
import type { Matching } from './ask-for-match.ts'
import type { Touch } from './follow-changes.ts'

/** A print as it was read in the browser, to be checked. */
export interface PrintToCheck {
  readonly name: string
  /** Of the file. */
  readonly sha256: string
  readonly bytes: number
  readonly container: 'plain' | 'gzip' | 'zip'
  /** Name in a zip. */
  readonly member: string | null
  readonly reading: PrintReading
  /** Id of the printer; the only one in use unless given. */
  readonly printer?: string
  /** Firmware family; the printer's unless given. */
  readonly firmware?: string
  /** Nominal, mm, of the filament that a person prints with; what the printer was fed last unless given. */
  readonly diameter_mm?: number
}

/** Which reel is to serve a tool. */
export interface ReelOfTool extends SupposedJson {
  readonly tool: number
  readonly reel: string
}

/** A moment gone by: the figures as they were; now unless given. */
export interface MomentOfLife {
  readonly at: string
  /** By what had been written down then; by all that is known today unless given. */
  readonly known_at?: string
}

/** How a file is sent. */
export interface Sending {
  /** The server only tries it, and tells. */
  readonly isDryRun?: boolean
  /** Told how many bytes are sent. */
  readonly onSent?: (bytes: number) => void
  /** Stops it; what is asked then fails as `signal.reason` says. */
  readonly signal?: AbortSignal
}

/** Where a copy of a print is to wait. */
export interface Stops {
  readonly afterLayers: readonly number[]
  /** Firmware family of the printer. */
  readonly firmware: string
  /** What to do there. */
  readonly note: string
  /** Name in a zip. */
  readonly member: string | null
}

/** Kinds of things there are beside reels. */
export type RowKind = 'material' | 'make' | 'printer' | 'scale' | 'person'

/**
 * What the screens ask of whoever keeps the ledger. A promise that fails does so with an Error whose
 * message can be shown; what the ledger refuses is a `ProblemFault`.
 */
export interface Api {
  /** @param all - with those that are empty or retired */
  readonly shelf: (all?: boolean) => Promise<ReelListJson>
  readonly reel: (id: string, then?: MomentOfLife) => Promise<ReelShowJson>
  readonly life: (id: string) => Promise<ReelLifeJson>
  readonly addReels: (told: ReelRequest) => Promise<RecordedJson>

  /**
   * Every reel of the shelf against each tool of a print, or of what comes after a layer of it: those
   * that do first, or every one.
   */
  readonly checkShelf: (
    print: PrintToCheck,
    told?: {
      readonly everyReel?: boolean
      readonly afterLayer?: number
      /** Of this material alone. */
      readonly material?: string
    },
  ) => Promise<ShelfCheckJson>
  /** One reel for each tool, with its working. */
  readonly checkReels: (print: PrintToCheck, reels: readonly ReelOfTool[]) => Promise<CheckJson>
  /** Keeps what was read of a print. @returns the id that `draw` names it by */
  readonly keepPrint: (print: PrintToCheck) => Promise<string>

  /** Tested first; with `test`, or surprising and without `accept`, nothing is written down. */
  readonly weigh: (told: WeighRequest) => Promise<RecordedJson>
  readonly draw: (told: DrawRequest) => Promise<RecordedJson>
  readonly measure: (told: MeasureRequest) => Promise<RecordedJson>
  readonly event: (told: EventRequest) => Promise<RecordedJson>
  readonly dataSheet: (told: SheetRequest) => Promise<RecordedJson>
  readonly putRight: (told: PutRightRequest) => Promise<RecordedJson>

  /** The prints that wait, the most urgent first. */
  readonly slate: () => Promise<SlateJson>
  /** Puts a print that was kept on the slate. */
  readonly addWaiting: (told: WaitingRequest) => Promise<RecordedJson>
  /** @param waiting - id of the waiting print */
  readonly changeWaiting: (waiting: string, told: WaitingChangeRequest) => Promise<RecordedJson>

  /** The prints that run, the one started first first. */
  readonly running: () => Promise<RunningPrintsJson>
  /** A print was started; with its `id` told twice it is counted once. */
  readonly startRunning: (told: RunningRequest) => Promise<RecordedJson>
  /** @param id - of the print that runs */
  readonly changeRunning: (id: string, told: RunningChangeRequest) => Promise<RecordedJson>

  /** Which reel for which waiting print; nothing is written down. */
  readonly match: (asked: MatchRequest, matching: Matching) => Promise<MatchJson>
  /** Keeps a plan: the next match differs from it as little as it can. */
  readonly keepPlan: (choices: PlanRequest['choices']) => Promise<RecordedJson>
  /** A copy of a print file, plain, that waits for a person after the layers named. */
  readonly copyWithStops: (file: File, stops: Stops, signal: AbortSignal) => Promise<Blob>

  readonly rows: (kind: RowKind) => Promise<RowsJson>
  readonly addRow: (kind: RowKind, row: RowRequest) => Promise<RecordedJson>
  /** @param row - id or name */
  readonly changeRow: (kind: RowKind, row: string, told: RowRequest) => Promise<RecordedJson>
  /** What was told of a make and of no reel. @param make - id or name */
  readonly makeFacts: (make: string) => Promise<MakeFactsJson>
  /** What the ledger says of makes, printers and scales. */
  readonly learnt: () => Promise<LearntJson>
  readonly priors: () => Promise<PriorsJson>
  /** @param own - null: as usual again */
  readonly setPrior: (key: string, own: MeasuredJson | null) => Promise<RecordedJson>

  /** Lines of another ledger. */
  readonly importLedger: (lines: Blob, isDryRun: boolean) => Promise<ImportJson>
  /** The columns of a person's own table. */
  readonly tableHead: (csv: string) => Promise<TableHeadJson>
  readonly importTable: (table: TableRequest) => Promise<ImportJson>
  /** A backup in the place of the ledger. */
  readonly restore: (backup: Blob, sending?: Sending) => Promise<KeptJson>
  /** The demo shelf in the place of the ledger, which stays as it is. */
  readonly loadDemo: () => Promise<SessionJson>
  /** The ledger back in its place. */
  readonly removeDemo: () => Promise<SessionJson>
  /** Told of where the ledger stands now, and whenever that changes. @returns how to stop */
  readonly follow: (told: (touch: Touch) => void) => () => void

  readonly session: () => Promise<SessionJson>
  readonly logIn: (passPhrase: string) => Promise<SessionJson>
  readonly logOut: () => Promise<SessionJson>
  readonly tokens: () => Promise<TokensJson>
  readonly addToken: (name: string, may: MayJson) => Promise<NewTokenJson>
  readonly removeToken: (id: string) => Promise<TokensJson>
}
