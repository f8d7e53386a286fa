import type {
  CatalogueRowJson,
  MakeRowJson,
  MaterialRowJson,
  PersonRowJson,
  PlanRowJson,
  PrinterRowJson,
  PriorsRowJson,
  RunningRowJson,
  ScaleRowJson,
  WaitingRowJson,
} from '../contract/index.ts'

/** Catalogue rows by kind and id; of rows with one id the one changed last. */
export interface Catalogue {
  readonly makes: ReadonlyMap<string, MakeRowJson>
  readonly materials: ReadonlyMap<string, MaterialRowJson>
  readonly printers: ReadonlyMap<string, PrinterRowJson>
  readonly scales: ReadonlyMap<string, ScaleRowJson>
  readonly people: ReadonlyMap<string, PersonRowJson>
  readonly priors: PriorsRowJson | undefined
  readonly waiting: ReadonlyMap<string, WaitingRowJson>
  readonly plan: PlanRowJson | undefined
  /** By the id of the fact that each ends as; those that have ended, too. */
  readonly running: ReadonlyMap<string, RunningRowJson>
}

/**
 * Sorts catalogue rows.
 *
 * @param rows - in any order; of rows changed at the same moment the later in the list holds
 */
export const catalogueOf = (rows: Iterable<CatalogueRowJson>): Catalogue => {
  const latest = new Map<string, CatalogueRowJson>()
  for (const row of rows) {
    const before = latest.get(`${row.kind} ${row.id}`)
    if (before === undefined || row.changed_at >= before.changed_at) {
      latest.set(`${row.kind} ${row.id}`, row)
    }
  }
  const makes = new Map<string, MakeRowJson>()
  const materials = new Map<string, MaterialRowJson>()
  const printers = new Map<string, PrinterRowJson>()
  const scales = new Map<string, ScaleRowJson>()
  const people = new Map<string, PersonRowJson>()
  let priors: PriorsRowJson | undefined
  const waiting = new Map<string, WaitingRowJson>()
  let plan: PlanRowJson | undefined
  const running = new Map<string, RunningRowJson>()
  for (const row of latest.values()) {
    switch (row.kind) {
      case 'make':
        makes.set(row.id, row)
        break
      case 'material':
        materials.set(row.id, row)
        break
      case 'printer':
        printers.set(row.id, row)
        break
      case 'scale':
        scales.set(row.id, row)
        break
      case 'person':
        people.set(row.id, row)
        break
      case 'priors':
        priors = row
        break
      case 'waiting':
        waiting.set(row.id, row)
        break
      case 'plan':
        plan = row
        break
      case 'running':
        running.set(row.id, row)
    }
  }
  return { makes, materials, printers, scales, people, priors, waiting, plan, running }
}
