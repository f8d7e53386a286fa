import type { ReelHeadJson, ReelShowJson, ReelWorkingJson } from '../../contract/index.ts'
import { formatAgo, formatIsoDay, formatMeasured } from '../../units/index.ts'
import { type MassUnit, partsOf, showMass, showReading, whole } from './show-figure.ts'

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

/** The uncertainty of a shown figure alone: `± 5 g`. */
const doubtIn = (shown: string): string => whole(partsOf(shown)[1].trim())

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
  /** What the net of a reel hangs on. @param now - ms since 1970 */
  weighedLast: (working: ReelWorkingJson | undefined, unit: MassUnit, now: number): string => {
    const { weighings: [last] = [], draws_since: draws = 0, length_since_mm = 0 } = working ?? {}
    const prints = draws === 1 ? 'one print' : `${draws} prints`
    const since =
      draws === 0
        ? 'nothing fed since'
        : `${prints} since, ${whole(`${Number((length_since_mm / 1000).toFixed(2))} m`)}`
    if (last === undefined) return draws === 0 ? 'never weighed' : `never weighed; ${since}`
    return `weighed ${formatIsoDay(last.at)}, ${formatAgo(last.at, now)}, at ${showReading(last.reading_g, unit)}; ${since}`
  },
  next: 'To know it better:',
  /** What the measurement to make next takes, and what is known then. */
  nextBrings: (
    { effort_min, net_u_g, length_u_mm }: NonNullable<ReelShowJson['next']>,
    unit: MassUnit,
  ): string =>
    `${whole(`${effort_min} min`)}; then the net is known to ${doubtIn(showMass({ value: 0, u: net_u_g }, unit))} and the length to ${doubtIn(formatMeasured({ value: 0, u: length_u_mm / 1000 }, 'm'))}.`,
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
