import type { CheckJson, ReelListJson, ReelShowJson, ShelfCheckJson } from '../../contract/index.ts'
import type { PrintReading } from '../../print/index.ts'

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
}

/** Which reel is to serve a tool. */
export interface ReelOfTool {
  readonly tool: number
  readonly reel: string
  /** What a scale is supposed to show with it, g: nothing is kept of it. */
  readonly gross_g?: number
}

/**
 * What the screens ask of whoever keeps the ledger. A promise that fails does so with an Error whose
 * message can be shown.
 */
export interface Api {
  readonly shelf: () => Promise<ReelListJson>
  readonly reel: (id: string) => Promise<ReelShowJson>
  /** Every reel of the shelf against each tool of a print. */
  readonly checkShelf: (print: PrintToCheck) => Promise<ShelfCheckJson>
  /** One reel for each tool, with its working. */
  readonly checkReels: (print: PrintToCheck, reels: readonly ReelOfTool[]) => Promise<CheckJson>
}
