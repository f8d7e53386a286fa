import {
  type CatalogueRowJson,
  type FactJson,
  idLength,
  type LedgerRecord,
  type MakeRowJson,
  type OpenedJson,
} from '../contract/index.ts'
import { findMaterial } from '../filament/index.ts'
import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { type Catalogue, catalogueOf } from './catalogue.ts'
import { checkNewFact } from './check-new-fact.ts'
import { recordOf } from './ledger-reader.ts'
import { nameOfMaterial } from './name-of-material.ts'
import { reelCards } from './reel-cards.ts'
import { type ReelColumn, type ReelMapping, unitOfHead } from './reel-columns.ts'
import { colourOf, massOfCell, momentOfCell, priceOfCell, srgbOfCell } from './table-cells.ts'
import { withoutMaker } from './without-maker.ts'

/** What is there already, and what is handed in. */
export interface TableContext {
  readonly rows: readonly CatalogueRowJson[]
  /** In the order written down. */
  readonly facts: readonly FactJson[]
  /** The moment of the import, as it stands in facts. */
  readonly now: string
  /** A new id, of one of `idLength`. */
  readonly newId: (length: number) => string
  /** Id of the scale on which the gross masses were read; needed where such a column is mapped. */
  readonly scale?: string
  /** Id of the person who says so. */
  readonly by?: string
  /** Currency of prices that name none. */
  readonly currency?: string
  /** True where nothing was fed from any of these reels. */
  readonly unused?: boolean
  /** True where rows that look like reels already there are other reels all the same. */
  readonly alike?: boolean
}

/** What a row of the table would become. */
export type TableRowOutcome =
  | {
      readonly kind: 'new'
      readonly reel: string
      /** The make where it is new, `opened`, and what the weighings make of it. */
      readonly records: readonly LedgerRecord[]
    }
  /** It seems to be there already, as this reel. */
  | { readonly kind: 'there'; readonly reel: string; readonly why: string }
  /** The table says that it is used up or gone: there is nothing to take over. */
  | { readonly kind: 'gone'; readonly why: string }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  /** Nothing stands in any of the mapped columns. */
  | { readonly kind: 'blank' }

/** One row of the table. */
export interface TableRow {
  /** As a spreadsheet counts: the header is row 1. */
  readonly row: number
  readonly outcome: TableRowOutcome
}

/**
 * Reels out of a person's own table. Nothing is written: the records are for the caller to append, or
 * to show.
 *
 * A reel counts as part-used, since nobody knows what was fed from it, unless it is `unused`.
 *
 * A new make comes among the records of the first row that needs it.
 *
 * Rows that seem to be there already are told and not doubled: same make, lot, colour, label and,
 * where the row gives one, day of opening. Alike reels are counted: of three alike rows where two such
 * reels stand, one is new. With `alike` each row is a reel of its own.
 *
 * @param header - names of the columns
 * @param table - rows of cells, header left out
 * @returns each row with its records or its refusal (the message begins with row and column), or for
 *   the table as a whole `column_needed` (neither make nor material), `scale_needed`
 */
export const reelsFromTable = (
  header: readonly string[],
  table: Iterable<readonly string[]>,
  mapping: ReelMapping,
  context: TableContext,
): Outcome<readonly TableRow[]> => {
  if (mapping.make === undefined && mapping.material === undefined) {
    return refuse({
      code: 'column_needed',
      message: 'No column is said to be the make or the material. Say which one is.',
      expected: 'make or material',
      received: header.join(', '),
    })
  }
  const weighs = mapping.gross !== undefined || mapping.gross_when_new !== undefined
  if (weighs && context.scale === undefined) {
    return refuse({
      code: 'scale_needed',
      message: 'The table has weighings. Say on which scale they were made.',
      expected: 'a scale',
    })
  }
  const importer = new Importer(header, mapping, context)
  return accept(
    Array.from(table, (cells, i) => ({ row: i + 2, outcome: importer.take(cells, i + 2) })),
  )
}

/** What a table says of a reel with nothing more to give; our own tables write the first two. */
const goneStates: ReadonlySet<string> = new Set(['empty', 'retired', 'used up', 'finished', 'gone'])

/** Of a reel that anything may be on nothing is to be reckoned. */
const nothingOfMass: Refusal = {
  code: 'mass_needed',
  message:
    'Nothing tells how much may be on it. Say which column is the net mass on the label, or what the scale shows; or tell the label of its make.',
  expected: 'label_net, gross or gross_when_new',
}

class Importer {
  readonly #header: readonly string[]
  readonly #mapping: ReelMapping
  readonly #context: TableContext
  readonly #catalogue: Catalogue
  readonly #makes: MakeRowJson[]
  /** Reels that stand, by what tells them apart; each answers for one row. */
  readonly #there = new Map<string, OpenedJson[]>()

  constructor(header: readonly string[], mapping: ReelMapping, context: TableContext) {
    this.#header = header
    this.#mapping = mapping
    this.#context = context
    this.#catalogue = catalogueOf(context.rows)
    this.#makes = [...this.#catalogue.makes.values()]
    if (context.alike === true) return
    for (const { opened } of reelCards(context.rows, context.facts)) {
      const marks = this.#marksOf(opened)
      const list = this.#there.get(marks)
      if (list === undefined) this.#there.set(marks, [opened])
      else list.push(opened)
    }
  }

  take(cells: readonly string[], row: number): TableRowOutcome {
    const mapped = Object.values(this.#mapping)
    if (mapped.every((place) => (cells[place] ?? '').trim() === '')) return { kind: 'blank' }
    const count = this.#makes.length
    const outcome = this.#reel(cells, row)
    // A make that came with a row that is not taken does not come.
    if (outcome.kind !== 'new') this.#makes.length = count
    return outcome
  }

  #reel(cells: readonly string[], row: number): TableRowOutcome {
    const { now, newId, scale, by } = this.#context
    const text = (column: ReelColumn): string => {
      const place = this.#mapping[column]
      return place === undefined ? '' : (cells[place] ?? '').trim()
    }
    const state = folded(text('state'))
    if (goneStates.has(state)) {
      return { kind: 'gone', why: `It is ${state}: only reels in use are taken over.` }
    }
    const unused = this.#context.unused === true || state === 'new'
    const refusals: Refusal[] = []
    const read = <T>(column: ReelColumn, parse: (text: string) => Outcome<T>): T | undefined => {
      const typed = text(column)
      if (typed === '') return undefined
      const outcome = parse(typed)
      if (outcome.ok) return outcome.value
      refusals.push(this.#at(row, column, outcome.refusal))
      return undefined
    }
    const mass = (column: ReelColumn): number | undefined =>
      read(column, (typed) => this.#mass(typed, column))?.value

    const label = mass('label_net')
    const gross = mass('gross')
    const grossNew = mass('gross_when_new')
    const at = read('opened', momentOfCell) ?? now
    const price = read('price', (typed) =>
      priceOfCell(typed, text('currency') || (this.#context.currency ?? '')),
    )
    const srgb = read('srgb', srgbOfCell)
    const material = read('material', (typed) => this.#material(typed))
    if (refusals[0] !== undefined) return { kind: 'refused', refusal: refusals[0] }
    const [make, makeIsNew] = this.#make(text('maker'), text('make') || text('material'), material)
    const other = makeIsNew ? this.#ofOtherMaterial(make) : undefined
    if (other !== undefined) return { kind: 'refused', refusal: this.#at(row, 'material', other) }
    if ((label ?? make.label_net_g ?? gross ?? grossNew) === undefined) {
      return { kind: 'refused', refusal: this.#at(row, undefined, nothingOfMass) }
    }

    const written = { recorded_at: now, ...(by !== undefined && { by }) }
    const reel = newId(idLength.row)
    const fact = (
      moment: string,
    ): { id: string; at: string; recorded_at: string; by?: string } => ({
      id: newId(idLength.fact),
      at: moment,
      ...written,
    })
    const opened: OpenedJson = {
      kind: 'opened',
      ...fact(at),
      reel,
      make: make.id,
      ...(label !== undefined && { label_net_g: label }),
      ...(grossNew !== undefined &&
        scale !== undefined && { gross_when_new: { scale, reading_g: grossNew } }),
      ...(!unused && { part_used: true as const }),
      ...optional('price', price),
      ...optional('colour', colourOf(text('colour'), srgb)),
      ...optional('lot', text('lot') || undefined),
      ...optional('place', text('place') || undefined),
    }
    const there = this.#takeThere(opened, text('opened') !== '')
    if (there !== undefined) {
      return {
        kind: 'there',
        reel: there,
        why: `A reel of the same make, lot, colour${text('opened') === '' ? ' and label' : ', label and day'} is on the shelf already; nothing of this row is taken.`,
      }
    }
    const facts: FactJson[] = [opened]
    if (gross !== undefined && scale !== undefined) {
      facts.push({ kind: 'weighed', ...fact(now), reel, weighing: { scale, reading_g: gross } })
    }
    const records = [...(makeIsNew ? [make] : []), ...facts]
    const fault = this.#faultOf(records, facts)
    return fault === undefined
      ? { kind: 'new', reel, records }
      : { kind: 'refused', refusal: this.#at(row, undefined, fault) }
  }

  /** What no parser sees: a control character in a name, a date in the future, an impossible mass. */
  #faultOf(records: readonly LedgerRecord[], facts: readonly FactJson[]): Refusal | undefined {
    const rows = [...this.#context.rows, ...this.#makes]
    const checks: readonly Outcome<unknown>[] = [
      ...records.map(recordOf),
      ...facts.map((fact) => checkNewFact(fact, rows, [], facts)),
    ]
    return checks.find((check) => !check.ok)?.refusal
  }

  #mass(typed: string, column: ReelColumn): ReturnType<typeof massOfCell> {
    const head = this.#header[this.#mapping[column] ?? -1]
    const mass = massOfCell(typed, unitOfHead(head))
    if (!mass.ok || mass.value.value >= 20) return mass
    return refuse({
      code: 'mass_too_small',
      message: `"${typed}" is read as ${mass.value.value} g, which is too little for a reel. Write the unit, for example 1 kg.`,
      expected: '20 g or more',
      received: typed,
    })
  }

  #material(typed: string): Outcome<string> {
    const own = [...this.#catalogue.materials.values()].find(
      ({ id, name }) => id === typed || folded(name) === folded(typed),
    )
    if (own !== undefined) return accept(own.id)
    const found = findMaterial(typed)
    return found.ok ? accept(found.value.id) : found
  }

  #make(
    said: string,
    called: string,
    material: string | undefined,
  ): readonly [make: MakeRowJson, isNew: boolean] {
    const maker = said || nobody
    const name = withoutMaker(called, said) || nobody
    // In a table that came out of a ledger a make may stand by its id.
    const byId = this.#makes.find(({ id }) => id === called)
    if (byId !== undefined) return [byId, false]
    const known = this.#makes.find(
      (make) =>
        folded(withoutMaker(make.name, make.maker)) === folded(name) &&
        folded(make.maker) === folded(maker) &&
        (material === undefined || (make.material ?? material) === material),
    )
    if (known !== undefined) return [known, false]
    const make: MakeRowJson = {
      kind: 'make',
      id: this.#context.newId(idLength.row),
      changed_at: this.#context.now,
      maker,
      name,
      ...(material !== undefined && { material }),
    }
    this.#makes.push(make)
    return [make, true]
  }

  /** Two makes of one name could not be told apart by it. */
  #ofOtherMaterial(make: MakeRowJson): Refusal | undefined {
    const { maker, name } = make
    const known = this.#makes.find(
      (each) =>
        each !== make && folded(each.name) === folded(name) && folded(each.maker) === folded(maker),
    )
    if (known === undefined) return undefined
    const [is, said] = [known.material, make.material].map((id) =>
      nameOfMaterial(id ?? '', this.#catalogue.materials),
    )
    return {
      code: 'make_differs',
      message: `${known.maker} ${known.name} is known with another material: ${is}, not ${said}. Put the material right, or give the make a name of its own.`,
      expected: known.material ?? '',
      received: make.material ?? '',
    }
  }

  #marksOf({ make, lot, colour, label_net_g: label }: OpenedJson): string {
    const said = label ?? this.#makes.find(({ id }) => id === make)?.label_net_g ?? ''
    return [make, folded(lot ?? ''), folded(colour?.name ?? ''), said].join('\n')
  }

  /** The reel that answers for a row. A row without a day leaves reels with one to rows that have it. */
  #takeThere(opened: OpenedJson, hasDay: boolean): string | undefined {
    const alike = this.#there.get(this.#marksOf(opened)) ?? []
    const place = hasDay
      ? alike.findIndex(({ at }) => at.slice(0, 10) === opened.at.slice(0, 10))
      : Math.max(
          0,
          alike.findIndex(({ at, recorded_at: written }) => at === written),
        )
    return alike.splice(place, place < 0 ? 0 : 1)[0]?.reel
  }

  #at(row: number, column: ReelColumn | undefined, refusal: Refusal): Refusal {
    const head = column === undefined ? undefined : this.#header[this.#mapping[column] ?? -1]
    const where = head === undefined ? `Row ${row}` : `Row ${row}, column "${head.trim()}"`
    return { ...refusal, message: `${where}: ${refusal.message}`, line: row }
  }
}

/** A maker, or a make, that the table does not name. */
const nobody = 'unknown'

const folded = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ')

const optional = <K extends string, V>(key: K, value: V | undefined): { [Key in K]?: V } =>
  value === undefined ? {} : ({ [key]: value } as { [Key in K]: V })
