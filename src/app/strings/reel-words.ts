import type { ReelHeadJson, ReelWorkingJson } from '../../contract/index.ts'
import { formatIsoDay } from '../../units/index.ts'

/** With as many places as the currency has at least: `19.90`. */
const inFull = (amount: string, currency: string): string => {
  const { minimumFractionDigits = 2 } = new Intl.NumberFormat('en-GB', {
    style: 'currency',
    currency,
  }).resolvedOptions()
  return new Intl.NumberFormat('en-GB', {
    minimumFractionDigits,
    maximumFractionDigits: 4,
    useGrouping: false,
  }).format(Number(amount))
}

/** What reels are called by, and the words of a reel's sheet. */
export const reelWords = {
  name: (reel: ReelHeadJson | null): string =>
    reel === null ? 'the reel' : ['reel', reel.id, reel.colour].filter(Boolean).join(' '),
  colourAndMake: ({ colour, make }: ReelHeadJson): string =>
    [colour, make ?? 'make not known'].filter(Boolean).join(', '),
  states: { new: 'new', 'part-used': 'part-used', empty: 'empty', retired: 'retired' },
  title: (id: string): string => `Reel ${id}`,
  came: 'Came',
  noReel: (id: string): string => `Reel ${id} can not be shown`,
  at: (place: string): string => `stands at: ${place}`,
  headings: ['Quantity', 'Value', 'Rests on'],
  net: 'net',
  length: 'length',
  tare: 'tare',
  linearDensity: 'linear density',
  unreckoned: 'not reckoned',
  restsOn: (one: ReelWorkingJson['rests'][number] | undefined): string =>
    one === undefined
      ? ''
      : one.guessed && !one.on.startsWith('guessed')
        ? `guessed: ${one.on}`
        : one.on,
  next: 'To know it better:',
  facts: 'Its facts, latest first',
  life: 'Its life',
  density: 'density',
  diameter: 'diameter',
  by: (what: string, source: string): string => `${what} (${source})`,
  atBench: 'At the bench',
  checkOn: (print: string): string => `Check ${print} on this reel`,
  paid: 'paid for it',
  gone: 'of that, gone',
  left: 'of that, left',
  money: (amount: string, currency: string): string => `${inFull(amount, currency)} ${currency}`,
  lifeSummary: (first: string, last: string, kinds: readonly string[]): string =>
    kinds.length === 0
      ? `It came with ${first} and holds ${last} now.`
      : `It came with ${first} and holds ${last} now: ${kinds.join(', ')}.`,
  kinds: {
    weighed: ['weighing', 'weighings'],
    drew: ['print', 'prints'],
    trimmed: ['trimming', 'trimmings'],
    emptied: ['emptying', 'emptyings'],
    'ran-dry': ['end', 'ends'],
  } as Readonly<Record<string, readonly [string, string]>>,
  count: (count: number, [one, many]: readonly [string, string]): string =>
    `${count} ${count === 1 ? one : many}`,
  lifeTable: 'As a table',
  lifeColumns: ['Moment', 'Net', 'Fact'],
  lifeDrawing: 'Net against time, as a line in its band of uncertainty; a mark for each fact.',
  noLife: 'Its facts can not be reckoned with, so there is no line.',
  past: 'Back in time',
  thenDay: 'As it was at the end of',
  thenKnown: 'by what had been written down then',
  heldThen: 'held then',
  thenNow: 'Back to now',
  asItWas: (at: string): string => `As it was on ${formatIsoDay(at)}`,
  awaited: '…',
  tell: 'Something befell it',
  itWas: 'It was',
  events: {
    moved: 'moved',
    dried: 'dried',
    trimmed: 'trimmed',
    emptied: 'emptied',
    retired: 'retired',
  },
} as const
