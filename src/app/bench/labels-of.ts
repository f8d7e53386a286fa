import type { CatalogueRowJson, RecordedJson } from '../../contract/index.ts'

/** What stands on a reel's label. */
export interface ReelLabel {
  readonly id: string
  readonly make: string
  readonly material: string | null
  readonly colour: string | null
  readonly srgb: string | null
  readonly lot: string | null
}

/**
 * Labels of the reels that arrived.
 *
 * @param rows - of the catalogue, beside those of the answer
 * @param materialName - by its id
 */
export function labelsOf(
  { facts, rows: fresh }: RecordedJson,
  rows: readonly CatalogueRowJson[],
  materialName: (id: string) => string,
): readonly ReelLabel[] {
  const makes = new Map(
    [...rows, ...fresh].flatMap((row) => (row.kind === 'make' ? [[row.id, row] as const] : [])),
  )
  return facts.flatMap((fact): ReelLabel[] => {
    if (fact.kind !== 'opened') return []
    const make = makes.get(fact.make)
    return [
      {
        id: fact.reel,
        make: make === undefined ? '' : `${make.maker} ${make.name}`,
        material: make?.material === undefined ? null : materialName(make.material),
        colour: fact.colour?.name ?? null,
        srgb: fact.colour?.srgb ?? null,
        lot: fact.lot ?? null,
      },
    ]
  })
}
