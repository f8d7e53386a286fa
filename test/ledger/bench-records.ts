import {
  type CatalogueRowJson,
  type FactJson,
  idLength,
  type MakeRowJson,
  makeId,
  type PersonRowJson,
  type PrinterRowJson,
  type ScaleRowJson,
} from '../../src/contract/index.ts'
import { SeededRandom } from '../seeded-random.ts'

/** A source of ids that is the same in every run. */
export const idSource = (seed: number): ((length: number) => string) => {
  const random = new SeededRandom(seed)
  return (length) => makeId(length, () => Math.floor(random.uniform() * 256))
}

const newId = idSource(7)
const rowId = (): string => newId(idLength.row)
const changed_at = '2026-01-01T00:00:00.000Z'

/** Noon of a day of March 2026. */
export const noon = (day: number): string => `2026-03-${String(day).padStart(2, '0')}T12:00:00.000Z`

export const tilde: PersonRowJson = { kind: 'person', id: rowId(), changed_at, name: 'Tilde' }
export const kitchen: ScaleRowJson = {
  kind: 'scale',
  id: rowId(),
  changed_at,
  name: 'kitchen scale',
  step_g: 1,
  repeatability_g: 0.5,
  gain: 0.001,
}
export const gull: PrinterRowJson = { kind: 'printer', id: rowId(), changed_at, name: 'Gull' }
export const quayside: MakeRowJson = {
  kind: 'make',
  id: rowId(),
  changed_at,
  maker: 'Tessamund',
  name: 'Quayside',
  material: 'pla',
  label_net_g: 1000,
}
export const rows: readonly CatalogueRowJson[] = [tilde, kitchen, gull, quayside]

/** Ids of two reels. */
export const grey: string = rowId()
export const white: string = rowId()
/** A well-formed id of nothing. */
export const nobody: string = rowId()

type Less<T> = T extends unknown ? Omit<T, 'id' | 'at' | 'recorded_at'> : never

/** A fact of a day, with an id of its own, written down when it happened unless said otherwise. */
export const fact = <F extends Less<FactJson>>(
  day: number,
  rest: F,
  recorded: number = day,
): F & { readonly id: string; readonly at: string; readonly recorded_at: string } => ({
  ...rest,
  id: newId(idLength.fact),
  at: noon(day),
  recorded_at: noon(recorded),
})

export const opened = (day: number, reel: string = grey) =>
  fact(day, { kind: 'opened', reel, make: quayside.id, label_net_g: 1000 } as const)

export const weighed = (day: number, reading_g: number, reel: string = grey) =>
  fact(day, { kind: 'weighed', reel, weighing: { scale: kitchen.id, reading_g } } as const)

export const drew = (day: number, length_mm: number, reel: string = grey) =>
  fact(day, { kind: 'drew', reel, printer: gull.id, length_mm } as const)

export const putRight = (day: number, voids: string, instead?: string, recorded = day) =>
  fact(
    day,
    {
      kind: 'put-right',
      voids,
      reason: 'misread',
      ...(instead !== undefined && { instead }),
    } as const,
    recorded,
  )
