import type { Source } from '../filament/index.ts'

/** How often something happens to a weighing, and how large it is when it does. */
export interface Slip {
  /** Share of weighings it happens to. */
  readonly share: number
  readonly source: Source
}

/** What may be wrong with a weighing, before it is looked at. Data, editable. */
export interface ShelfSlips {
  /** Another reel of the shelf was on the scale; the share is divided among them evenly. */
  readonly otherReel: Slip
  /** The display was in ounces (avoirdupois). */
  readonly ounces: Slip
  /** The display was in pounds. */
  readonly pounds: Slip
  /** The display was in kilograms. */
  readonly kilograms: Slip
  /** The net was written down instead of the gross. */
  readonly tareSubtracted: Slip
  /** The net was written down, and the tare taken off it once again. */
  readonly tareSubtractedTwice: Slip
  /** Something was printed and not recorded: any mass up to what was left, all alike. */
  readonly printNotRecorded: Slip
  /**
   * Where draws stand more than once since the reel's net was last told: one of them was not printed;
   * the share is divided among them evenly. Of other weighings it says nothing.
   */
  readonly printRecordedTwice: Slip
  /** Something else stood on the scale: any mass up to `most`, g, all alike. */
  readonly adapterLeftOn: Slip & { readonly most: number }
  /** Where something was told to be beside it: it was not on the scale. Of other weighings it says nothing. */
  readonly extraNotThere: Slip
  /**
   * Where the carrier's mass is still a guess: it is of another kind, its mass `times` as uncertain as
   * believed. Nothing is wrong with the reading then.
   */
  readonly unusualCarrier: Slip & { readonly times: number }
  /** Anything else: any reading up to `most`, g, all alike. */
  readonly anythingElse: Slip & { readonly most: number }
}

const practice = (where: string): Source => ({ standing: 'common practice, no source', where })

/** @see docs/method/shelf.md, "Surprise" */
export const defaultShelfSlips: ShelfSlips = {
  otherReel: { share: 0.01, source: practice('reels of one make look alike') },
  ounces: { share: 0.002, source: practice('one button turns most kitchen scales to ounces') },
  pounds: { share: 0.002, source: practice('one button turns most kitchen scales to pounds') },
  kilograms: { share: 0.005, source: practice('1.2 written for 1.2 kg') },
  tareSubtracted: { share: 0.01, source: practice('the hand method is to write the net') },
  tareSubtractedTwice: { share: 0.002, source: practice('a zeroed scale and a sum on paper') },
  printNotRecorded: { share: 0.03, source: practice('the commonest gap of any ledger') },
  printRecordedTwice: {
    share: 0.03,
    source: practice('a print written down at its start and again at its end'),
  },
  adapterLeftOn: {
    share: 0.01,
    most: 400,
    source: practice('a hub, a holder or a bag stays on the reel'),
  },
  extraNotThere: {
    share: 0.03,
    source: practice('a line repeated with what stood on the scale the time before'),
  },
  unusualCarrier: {
    share: 0.02,
    times: 3,
    source: practice('one line in fifty is on carriers that nobody would guess'),
  },
  anythingElse: {
    share: 0.001,
    most: 10_000,
    source: practice('a figure misread or mistyped, a reel that is not on the shelf'),
  },
}
