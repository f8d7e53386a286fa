import { z } from 'zod'
import { factBounds, motionOfPrinter } from '../ledger/index.ts'
import { firmwareFamilies } from '../print/index.ts'
import { eModeOf, eUnitOf, familyOf, filamentDiameter, findRow } from '../service/index.ts'
import { accept, type Outcome } from '../units/index.ts'
import type { Asked } from './endpoint.ts'
import { boundedParam, oneOfParam, type Parameter, param, rowParam } from './parameter.ts'
import type { SentPrint } from './surroundings.ts'

/** What came in the query, by its names. */
export type Query = Readonly<Record<string, string | undefined>>

/** For each name in the query what it is of the request, and what it is read by. */
export type QueryReaders<T> = Readonly<
  Record<string, readonly [keyof T, (typed: string) => Outcome<unknown>]>
>

/** What is told in the query, read; what is not told is absent. */
export const readQuery = <T>(readers: QueryReaders<T>, query: Query): Outcome<Partial<T>> => {
  const read: { [K in keyof T]?: unknown } = {}
  for (const [name, [key, reader]] of Object.entries(readers)) {
    const typed = query[name]
    if (typed === undefined) continue
    const value = reader(typed)
    if (!value.ok) return value
    read[key] = value.value
  }
  return accept(read as Partial<T>)
}

/** Of a path only the last part is a name. */
const nameOf = (typed: string): string => {
  const name = (typed.split(/[/\\]/).at(-1) ?? '').trim().slice(0, 1000)
  return name === '' ? 'a print that was sent' : name
}

const diameterOf = (typed: string): Outcome<number> => filamentDiameter(Number(typed))

const readers: QueryReaders<SentPrint> = {
  firmware: ['firmware', familyOf],
  e_unit: ['eUnit', eUnitOf],
  e_mode: ['eMode', eModeOf],
  diameter_mm: ['diameter_mm', diameterOf],
  made_for_mm: ['madeFor_mm', diameterOf],
}

/** A firmware family. */
export const firmwareParam = (about: string): Parameter =>
  oneOfParam(
    firmwareFamilies.map(({ id }) => id),
    about,
    familyOf,
  )

/** What may be told in the query of a print file that is sent. */
export const sentPrintQuery: Readonly<Record<string, Parameter>> = {
  file: param(z.string(), 'what it is called'),
  firmware: firmwareParam('family of the printer, where the file leaves it open'),
  e_unit: oneOfParam(
    ['mm', 'mm3', 'mm³', 'mm^3'],
    '`mm` or `mm3`, also written `mm³`, where the file leaves it open',
    eUnitOf,
  ),
  e_mode: oneOfParam(
    ['absolute', 'relative'],
    '`absolute` or `relative`, where the file leaves it open',
    eModeOf,
  ),
  diameter_mm: boundedParam(
    factBounds.diameter_mm,
    'of the filament, 1.75 unless given: the same as of the reels that the print is checked on',
    filamentDiameter,
  ),
  made_for_mm: boundedParam(
    factBounds.diameter_mm,
    'of the filament that the file was made for, where the file leaves it open',
    filamentDiameter,
  ),
}

/** Which print of a file. */
export const memberParam: Parameter = param(z.string(), 'which print of a zip with several')

/** What is told of a print file that is sent. */
export const sentPrintOf = (query: Query): Outcome<SentPrint> => {
  const told = readQuery(readers, query)
  return told.ok ? accept({ ...told.value, file: nameOf(query['file'] ?? '') }) : told
}

/** What can be told of the printer of a print that is sent. */
export const sentPrinterQuery: Readonly<Record<string, Parameter>> = {
  printer: rowParam('name or id of a printer: its firmware, and how it moves, unless told'),
}

/**
 * What the ledger has of the printer that is named, if one is.
 *
 * @returns as `findRow`
 */
export const sentPrinterOf = async ({
  around,
  gate,
  query,
}: Pick<Asked<unknown>, 'around' | 'gate' | 'query'>): Promise<
  Outcome<Pick<SentPrint, 'firmware' | 'motion'>>
> => {
  const { printer } = query
  if (printer === undefined) return accept({})
  const rows = await gate.read(() => around.ledger.store().catalogue())
  const found = findRow(rows, 'printer', printer)
  if (!found.ok) return found
  const row = found.value
  const firmware = familyOf(row.firmware ?? '')
  return accept({
    motion: motionOfPrinter(row),
    ...(firmware.ok && { firmware: firmware.value }),
  })
}
