import type { ReelChangeJson, StoppedAtJson } from '../../contract/index.ts'
import { formatIsoDay, formatIsoMinute } from '../../units/index.ts'
import { showHeight } from './show-figure.ts'

const list = (reels: readonly { readonly reel: string }[]): string =>
  reels.map(({ reel }) => reel).join(' and ')

/** Words of starting a print, of writing down what became of it, and of putting a fact right. */
export const recordWords = {
  bar: 'Make it',
  start: (reels: readonly { readonly reel: string }[]): string =>
    reels.length === 0 ? 'Start it' : `Start it on ${list(reels)}`,
  onSlate: 'Put it on the slate instead',
  started:
    'It runs, as is kept in the ledger, and stands below until somebody says what became of it.',
  startWaits:
    'That it was started waits in this browser: the server gets it as soon as it can be reached.',
  startNotTaken: (why: string): string =>
    `That it was started is known in this browser only, as the server did not take it: ${why}`,
  changeWaits:
    'What changed of it waits in this browser: the server gets it as soon as it can be reached.',
  changeNotTaken: (why: string): string => `What changed of it was not taken: ${why}`,
  notKept:
    'This browser refuses to keep what the server does not have yet: it is known only until this page is closed or loaded again. Say what became of it before that, or note it elsewhere.',
  busy: (file: string, reels: readonly { readonly reel: string }[]): string =>
    `${file} is running on ${list(reels)}: what it takes is not off these figures yet.`,
  printer: 'Printer',
  noPrinter: 'There is no printer yet. What is yours called?',
  addPrinter: 'Add the printer',
  firmware: 'Its firmware reads the file as',
  anyFirmware: 'not known',
  running: 'Running',
  none: 'Nothing is running.',
  runningSince: (file: string, reels: readonly { readonly reel: string }[]): string =>
    `${file} on ${list(reels)}`,
  standsAt: (reel: string, place: string): string => `Reel ${reel} stands at ${place} now.`,
  contradicted: (reel: string, at: string, reading: string): string =>
    `An earlier weighing is brought to light as wrong: reel ${reel}, ${formatIsoDay(at)}, ${reading}. Put it right on the reel's sheet.`,
  changed: 'Another reel took over',
  changedWhich: 'Which reel came off?',
  changedAfter: (last: number): string => `After which layer, up to ${last}?`,
  changedTo: 'Which reel went on?',
  keepChange: 'Keep it with the print',
  thenOn: (layer: number): string => `, and after layer ${layer} on `,
  wasThisOne: 'It was this one: take it off',
  wasAnother: 'It was another copy',
  endedByThen: 'It had ended by then',
  endedAfter: 'It ended after that weighing',
  runningOn: (file: string): string => `${file} on`,
  and: ' and ',
  /** @param now - ms since 1970 */
  since: (started: string, printer: string, now: number): string =>
    `${printer}, ${Date.parse(started) > now ? 'to start' : 'since'} ${formatIsoMinute(started)}`,
  took: 'It took',
  tookHint: 'As 3 h 40 min, by the printer’s own word; may be left out. Times are learnt from it.',
  finished: 'Finished',
  failed: 'Failed',
  never: 'It never ran',
  where: 'Where did it stop?',
  told: { layer: 'layer', height: 'height', share: 'share' },
  layer: (count: number): string => `Last layer it reached, of ${count}`,
  layerRefused: (count: number, first = 1): string => `A whole number from ${first} to ${count}.`,
  height: (top: number): string => `Height it reached, up to ${showHeight(top)}`,
  share: 'Share of the filament that was fed',
  /** @param reel - null where it is the only one */
  ranDry: (reel: string | null): string =>
    reel === null ? 'The reel ran dry there' : `${reel} ran dry there`,
  write: 'Write it down',
  anyway: 'Write it down all the same',
  back: 'Back',
  done: 'Done',
  pictureOf: 'how far it got',
  stopped: (stopped: StoppedAtJson | null): string => {
    if (stopped === null) return 'Written down as finished.'
    if (stopped.layer !== undefined) return `Written down as failed at layer ${stopped.layer}.`
    if (stopped.height_mm !== undefined)
      return `Written down as failed at ${showHeight(stopped.height_mm)}.`
    return `Written down as failed at ${Math.round((stopped.share ?? 1) * 100)} % of its filament.`
  },
  reelIs: ({ reel }: ReelChangeJson): string => `Reel ${reel}`,
  from: 'before',
  to: 'now',
  unreckoned: 'not reckoned',
  putRight: 'Put right',
  holdsAgain: 'It holds after all',
  voided: (reason: string): string => `does not hold: ${reason}`,
  putRightOf: (what: string): string => `Put right: ${what}`,
  ofMake: 'what was told of a make',
  isWrong: 'What is right?',
  rights: {
    nothing: 'it did not happen',
    mass: 'another mass',
    beside: 'what stood beside it',
    length: 'another length',
    stop: 'it stopped before its end',
    reel: 'another reel',
    make: 'another make',
    label: 'another label',
    state: 'new or part-used',
    colour: 'another colour',
    price: 'another price',
    lot: 'another lot',
    holds: 'what it voided holds',
  },
  reason: 'Why it does not hold',
  reasonExample: 'As “misread” or “written down twice”.',
  rightMass: 'The right mass',
  besideThen: {
    press: 'Something else stood beside it',
    label: 'What else stood on the scale',
    hint: 'A holder or a bag, as 38 g or 1.3 oz; 0 where nothing did.',
  },
  rightLength: 'The right length',
  rightLayer: 'Last layer it reached',
  rightLayerRefused: 'A whole number, 1 or more.',
  rightHeight: 'Height it reached',
  rightReel: 'The right reel',
  rightMake: 'The right make',
  rightColour: 'The right colour',
  rightLabel: 'Net on the label',
  rightCarrierLabel: 'What was on the label of what it carried, where that make has several sizes',
  labelHint: 'As 1 kg, 750 g or 2.2 lb.',
  rightPrice: 'What was paid for it',
  rightCurrency: 'Currency, three letters',
  currencyRefused: 'Three letters, as EUR.',
  rightLot: 'The right lot',
  massHint: 'As 422 g or 14.9 oz.',
  lengthHint: 'As 12.4 m or 850 mm.',
  reelHint: 'By its id, or by words.',
  notNow: 'Leave it',
} as const
