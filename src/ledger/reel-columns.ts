import { accept, type Outcome, refuse } from '../units/index.ts'

/** What a column of a person's own table can stand for. */
export const reelColumns = [
  'make',
  'maker',
  'material',
  'label_net',
  'gross',
  'gross_when_new',
  'colour',
  'srgb',
  'place',
  'lot',
  'price',
  'currency',
  'opened',
  'state',
] as const

export type ReelColumn = (typeof reelColumns)[number]

/** Which column of a table is what: its place, 0-based. */
export type ReelMapping = Readonly<Partial<Record<ReelColumn, number>>>

/** A mapping made from the names of columns, and what was made of them. */
export interface GuessedMapping {
  readonly mapping: ReelMapping
  /** A sentence for each column: what it was taken for, or that it was not. */
  readonly said: readonly string[]
}

/** Names that plain English has for each, without case, units in brackets and marks; best first. */
const known: Readonly<Record<ReelColumn, readonly string[]>> = {
  make: ['make', 'product line', 'product', 'line', 'filament', 'name', 'model'],
  maker: ['maker', 'manufacturer', 'brand', 'producer', 'supplier'],
  material: ['material', 'plastic', 'polymer', 'type', 'kind'],
  label_net: ['label net', 'net on label', 'label', 'net weight', 'net mass', 'nominal weight'],
  gross: [
    'gross',
    'gross weight',
    'gross mass',
    'gross now',
    'weight now',
    'weighed',
    'on the scale',
    'reading',
  ],
  gross_when_new: ['gross when new', 'gross new', 'weight when new', 'full weight', 'gross full'],
  colour: ['colour', 'color', 'colour name', 'color name', 'shade'],
  srgb: ['srgb', 'rgb', 'hex', 'colour code', 'color code', 'hex colour', 'hex color'],
  place: ['place', 'location', 'where', 'shelf', 'box', 'stands'],
  lot: ['lot', 'batch', 'lot number', 'batch number'],
  price: ['price', 'cost', 'paid'],
  currency: ['currency'],
  state: ['state', 'status', 'condition'],
  opened: ['opened', 'opened on', 'date opened', 'opened at', 'open since'],
}

const bare = (head: string): string =>
  head
    .toLowerCase()
    .replaceAll(/[([].*?[)\]]/g, ' ')
    .replaceAll(/[^\p{L}\p{N}]+/gu, ' ')
    .trim()
    .replace(/ (?:g|kg|mg|oz|lb|lbs|grams?)$/, '')

/**
 * Guesses from the names of columns, in plain English, what each is. `weight` alone is not taken: it
 * may be gross or net; nor is `net`: it may be what is left.
 *
 * @param header - the first row of the table
 */
export const guessReelMapping = (header: readonly string[]): GuessedMapping => {
  const best = new Map<ReelColumn, { readonly place: number; readonly rank: number }>()
  for (const [place, head] of header.entries()) {
    for (const column of reelColumns) {
      const rank = known[column].indexOf(bare(head))
      const before = best.get(column)
      if (rank >= 0 && (before === undefined || rank < before.rank)) {
        best.set(column, { place, rank })
      }
    }
  }
  const mapping: Partial<Record<ReelColumn, number>> = {}
  for (const [column, { place }] of best) mapping[column] = place
  // The table of reels that a ledger writes has ids of its own under `make`.
  const heads = header.map(bare)
  if (ownHeads.every((head) => heads.includes(head))) mapping.make = heads.indexOf('name')
  return { mapping, said: sayReelMapping(header, mapping) }
}

const ownHeads = ['id', 'state', 'make', 'maker', 'name', 'touched at'] as const

/** A sentence for each column: what it is taken for, or that it is left out. */
export const sayReelMapping = (
  header: readonly string[],
  mapping: ReelMapping,
): readonly string[] =>
  header.map((head, place) => {
    const columns = reelColumns.filter((one) => mapping[one] === place)
    const shown = head.trim() === '' ? `Column ${place + 1}, without a name,` : `"${head.trim()}"`
    if (columns.length > 0) {
      return `${shown} is taken for ${columns.map((column) => words[column]).join(' and ')}.`
    }
    const why = unsure[bare(head)]
    return why === undefined
      ? `${shown} is left out.`
      : `${shown} is left out: it ${why}. Say which.`
  })

/** Names that say two things. */
const unsure: Readonly<Partial<Record<string, string>>> = {
  weight: 'may be gross or net',
  net: 'may be what the label says or what is left',
  'last gross': 'may not be what the scale shows now',
}

const words: Readonly<Record<ReelColumn, string>> = {
  make: 'the name of the make',
  maker: 'the maker',
  material: 'the material',
  label_net: 'the net mass on the label',
  gross: 'what the scale shows now',
  gross_when_new: 'what the scale showed when the reel was new',
  colour: 'the name of the colour',
  srgb: 'the colour on a screen',
  place: 'the place where it stands',
  lot: 'the lot',
  price: 'the price',
  currency: 'the currency',
  opened: 'the day it was opened',
  state: 'whether it is still in use',
}

/**
 * A mapping from column names that a person gave.
 *
 * @param given - for each thing the name of its column, in either case
 * @returns refusals `column_missing`, `column_twice`
 */
export const namedReelMapping = (
  header: readonly string[],
  given: Readonly<Partial<Record<ReelColumn, string>>>,
): Outcome<ReelMapping> => {
  const heads = header.map((head) => head.trim().toLowerCase())
  const mapping: Partial<Record<ReelColumn, number>> = {}
  for (const column of reelColumns) {
    const name = given[column]
    if (name === undefined) continue
    const place = heads.indexOf(name.trim().toLowerCase())
    if (place < 0) {
      return refuse({
        code: 'column_missing',
        message: `There is no column "${name}". The columns are ${header.join(', ')}.`,
        expected: header.join(', '),
        received: name,
      })
    }
    if (heads.lastIndexOf(heads[place]!) !== place) {
      return refuse({
        code: 'column_twice',
        message: `Two columns are called "${name}". Give one of them another name.`,
        received: name,
      })
    }
    mapping[column] = place
  }
  return accept(mapping)
}

/** The unit of mass in the name of a column, as in `label (kg)`, or ''. */
export const unitOfHead = (head: string | undefined): string =>
  /(?:[([]|[\s_,])\s*(kg|g|grams?|oz|lbs?)\s*[)\]]?\s*$/i.exec(head ?? '')?.[1] ?? ''
