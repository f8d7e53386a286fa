const count = new Intl.NumberFormat('en-GB')
const several = (many: number, one: string, more: string): string =>
  many === 1 ? `1 ${one}` : `${count.format(many)} ${more}`

/** Words of the part that takes over a ledger or a table. */
export const importWords = {
  importing: 'Import',
  lead: 'Lines of another ledger (NDJSON), or a table of reels out of a spreadsheet (CSV), packed with gzip or not: it is told by what is in it. What would come is shown first.',
  choose: 'Choose a file',
  another: 'Choose another file',
  trying: (name: string): string => `Trying ${name} …`,
  notRead: (name: string): string => `${name} can not be taken over`,
  tooLarge: 'It is too large: 64 MiB at most, once it is unpacked.',
  notText: 'It is not text in UTF-8. Save it as UTF-8 and try again.',
  wouldCome: (name: string, written: number, same: number, older: number): string =>
    [
      `Of ${name} ${several(written, 'record', 'records')} would be written`,
      ...(same > 0 ? [`${several(same, 'is', 'are')} there already`] : []),
      ...(older > 0 ? [`${several(older, 'is', 'are')} older than what is there`] : []),
    ].join('; ') + '. Nothing is written yet.',
  nothingNew: (name: string): string =>
    `Everything in ${name} is there already. There is nothing to take over.`,
  takeOver: 'Take it over',
  taken: (name: string, written: number): string =>
    `Taken over from ${name}: ${several(written, 'record', 'records')}.`,
  reelsTaken: (name: string, reels: number): string =>
    `Taken over from ${name}: ${several(reels, 'reel', 'reels')}. Write its id on each.`,

  tableOf: (name: string, rows: number): string =>
    `${name}: a table of ${several(rows, 'row', 'rows')}`,
  columnsLead: 'Say what stands in each column.',
  columns: ['Column', 'Its first cells', 'Is'],
  columnIs: (heading: string): string => `Column ${heading} is`,
  unnamed: (place: number): string => `${place}, without a heading`,
  is: {
    '': 'left out',
    make: 'the name of the make',
    maker: 'the maker',
    material: 'the material',
    label_net: 'the net mass on the label',
    gross: 'what the scale shows now',
    gross_when_new: 'what the scale showed when new',
    state: 'whether it is in use',
    colour: 'the name of the colour',
    srgb: 'the colour on a screen',
    place: 'the place where it stands',
    lot: 'the lot',
    price: 'the price',
    currency: 'the currency',
    opened: 'the day it was opened',
  },
  scale: 'The scale of its weighings',
  noScale: 'say which',
  scaleMissing:
    'The table has weighings, but no scale has been set up. Add one under Scales first.',
  currency: 'Currency of its prices',
  currencyHint: 'As EUR; where a price names none.',
  unused: 'Nothing was fed from any of these reels',
  alike: 'Rows that look like reels already there are other reels',
  tryIt: 'Show what would come',
  twice: (what: string): string => `Two columns are said to be ${what}. Leave one of them out.`,

  outcome: 'What would become of each row',
  outcomeHeadings: ['Row', 'Becomes', 'What'],
  becomesReel: 'a reel',
  leftOut: 'left out',
  inColumn: (column: string, message: string): string => `Column “${column}”: ${message}`,
  counts: (reels: number, left: number): string =>
    `${several(reels, 'reel would', 'reels would')} come; ${several(left, 'row is', 'rows are')} left out. Nothing is written yet.`,
  take: (reels: number): string => `Take over ${several(reels, 'reel', 'reels')}`,
} as const
