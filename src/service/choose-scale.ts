import type { CatalogueRowJson, ScaleRowJson } from '../contract/index.ts'
import { kitchenScale } from '../filament/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { findRow, rowsOf } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { newRowId } from './new-id.ts'

/** The scale of a weighing. */
export interface ScaleChosen {
  readonly scale: ScaleRowJson
  /** True where the shelf had none: the row is to be written down with the weighing. */
  readonly isNew: boolean
}

/** What the first scale is called where a person has not named it. */
export const firstScaleName = 'kitchen scale'

/** How one shows and repeats that nobody has told of. */
export const usualScale: Pick<ScaleRowJson, 'step_g' | 'repeatability_g'> = {
  step_g: kitchenScale.displayStep,
  repeatability_g: kitchenScale.repeatability,
}

/**
 * The scale that is meant: by name or id, or the only one in use; on a shelf without a scale an
 * unchecked kitchen scale.
 *
 * @returns `scale_needed` with those in use, and as `findRow`
 */
export const chooseScale = (
  handed: HandedIn,
  rows: readonly CatalogueRowJson[],
  typed: string | undefined,
): Outcome<ScaleChosen> => {
  if (typed !== undefined) {
    const found = findRow(rows, 'scale', typed)
    return found.ok ? accept({ scale: found.value, isNew: false }) : found
  }
  const inUse = rowsOf(rows, 'scale').filter(({ retired }) => retired !== true)
  const [one, ...more] = inUse
  if (one === undefined) return accept({ scale: firstScale(handed, rows), isNew: true })
  if (more.length === 0) return accept({ scale: one, isNew: false })
  return refuse({
    code: 'scale_needed',
    message: `There are several scales: say which it stood on.${inUse.map(({ id, name }) => `\n  ${id}  ${name}`).join('')}`,
  })
}

const firstScale = (handed: HandedIn, rows: readonly CatalogueRowJson[]): ScaleRowJson => ({
  kind: 'scale',
  id: newRowId(handed, (id) => rows.some((row) => row.id === id)),
  changed_at: new Date(handed.now()).toISOString(),
  name: firstScaleName,
  ...usualScale,
  gain: kitchenScale.gain,
})
