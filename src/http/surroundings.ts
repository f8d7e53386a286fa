import type { Context } from 'hono'
import type {
  KeptJson,
  PausedCopyJson,
  PrintRowJson,
  ReadJson,
  TokenJson,
} from '../contract/index.ts'
import type { MotionOptions } from '../print/index.ts'
import type {
  MatchEngine,
  ReadingTold,
  ReelForTool,
  ShelfView,
  ToldOfPrinter,
} from '../service/index.ts'
import type { Store } from '../store/index.ts'
import type { Outcome } from '../units/index.ts'

/** A token as it is kept: of its secret only the SHA-256. */
export interface KeptToken extends TokenJson {
  readonly sha256: string
}

/** Who may use the server. */
export interface Access {
  /** False where only this machine reaches the server, under its own names. */
  readonly isNeeded: boolean
  /** Whether this is the pass-phrase; takes a while on purpose. */
  readonly checkPhrase: (typed: string) => Promise<boolean>
  /** Another one for each pass-phrase that was set: who logged in with an older one is out. */
  readonly phraseMark: () => Promise<string>
  readonly tokens: () => Promise<readonly KeptToken[]>
  readonly keepTokens: (tokens: readonly KeptToken[]) => Promise<void>
}

/** The ledger that is served. */
export interface ServedLedger {
  /** Another one after a restore, and while the demo shelf stands in its place. */
  readonly store: () => Store
  /** Grows whenever another ledger takes the place of the one before. */
  readonly number: () => number
  /** Whether what is served is the demo shelf. */
  readonly isDemo: () => boolean
  /**
   * Puts the demo shelf in the place of the person's own ledger, or that back in its place. The demo
   * shelf is a new one each time; what it was asked to keep is gone with it.
   */
  readonly setDemo: (
    wanted: boolean,
    alone: <T>(work: () => Promise<T>) => Promise<T>,
  ) => Promise<Outcome<undefined>>
  /** A checked copy. */
  readonly backUp: () => Promise<Outcome<ReadableStream<Uint8Array>>>
  /**
   * Puts a backup in its place.
   *
   * @param alone - does its work while nothing else uses the store; the bytes are taken in before
   */
  readonly restore: (
    bytes: ReadableStream<Uint8Array>,
    alone: <T>(work: () => Promise<T>) => Promise<T>,
  ) => Promise<Outcome<KeptJson>>
  /** What a backup holds; it takes nobody's place. */
  readonly examine: (bytes: ReadableStream<Uint8Array>) => Promise<Outcome<KeptJson>>
  /** An empty store to try things in. */
  readonly rehearsal: () => Promise<Outcome<Store>>
}

/** A print file that is sent, and what is told that it leaves open. */
export interface SentPrint extends ReadingTold {
  /** What it is called. */
  readonly file: string
  /** What is known of how its printer moves. */
  readonly motion?: MotionOptions
}

/** A copy of a print file that is wanted. */
export interface CopyAsked extends SentPrint {
  /** That are finished before a stop, 1-based. */
  readonly layers: readonly number[]
  /** Another reel, or anything else. */
  readonly purpose: 'change' | 'pause'
  readonly note?: string
  readonly member?: string
}

/**
 * Makes a checked copy of a print file, with stops in it.
 *
 * @returns what is told of it, and the copy; `firmware_needed`
 */
export type PausedCopyServed = (
  bytes: ReadableStream<Uint8Array>,
  wanted: CopyAsked,
) => Promise<Outcome<{ readonly told: PausedCopyJson; readonly bytes: ReadableStream<Uint8Array> }>>

/** A reading that is wanted. */
export interface ReadingAsked extends SentPrint {
  /** Of the filament, so that volume and nominal mass can be told. */
  readonly material?: string
  readonly density_g_per_cm3?: number
}

/**
 * Reads a print file, in a thread of its own.
 *
 * @param now - moment of the reading, ms since 1970
 * @returns what is told of it, and its prints as the ledger keeps them
 */
export type ReadingServed = (
  bytes: ReadableStream<Uint8Array>,
  asked: ReadingAsked,
  now: number,
) => Promise<Outcome<{ readonly told: ReadJson; readonly rows: readonly PrintRowJson[] }>>

/** Reels that are to do a print, and on what terms. */
export interface ReachAsked {
  /** Of the shelf, by id, or told. */
  readonly reels: readonly ReelForTool[]
  /** Of the printer: it goes before what the shelf has. */
  readonly told?: ToldOfPrinter
  /** Name or id. */
  readonly printer?: string
  /** c; 0.95 unless given. */
  readonly confidence?: number
  /** When it is started, ms since 1970. */
  readonly start?: number
  /** Only this part between the reel changes that the file plans, 1-based. */
  readonly stretch?: number
}

/** A picture that is wanted. */
export interface PictureAsked extends SentPrint {
  readonly kind: 'svg' | 'png'
  /** This one from above, 1-based; the print from the side unless given. */
  readonly layer?: number
  readonly member?: string
  /** To show how far these reels go, as this shelf knows them. */
  readonly reach?: ReachAsked & { readonly view: ShelfView }
}

/**
 * Draws a print file.
 *
 * @param now - ms since 1970
 * @returns the picture as a file
 */
export type PictureServed = (
  bytes: ReadableStream<Uint8Array>,
  asked: PictureAsked,
  now: number,
) => Promise<Outcome<string | Uint8Array<ArrayBuffer>>>

/** What the server is handed: it knows neither Node nor the machine by itself. */
export interface Surroundings {
  readonly ledger: ServedLedger
  /** Milliseconds since 1970. */
  readonly now: () => number
  readonly access: Access
  /** Names and addresses by which the server may be called, as `URL.hostname` has them. */
  readonly hosts: ReadonlySet<string>
  /** A file of the app by its path, as `/index.html`; absent where there is none. */
  readonly file: (path: string) => Promise<Uint8Array<ArrayBuffer> | undefined>
  readonly pausedCopy: PausedCopyServed
  readonly reading: ReadingServed
  readonly picture: PictureServed
  /** In a thread of its own, so that others are answered meanwhile. */
  readonly match: MatchEngine
  /** Address of who is asking. */
  readonly remoteOf: (context: Context) => string
  /** How often to look whether others have written, ms. */
  readonly pollEvery: number
}
