import type { MeasuredJson } from '../contract/index.ts'
import { type Outcome, refuse } from '../units/index.ts'
import { findRow } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { factCommon, type Said } from './said.ts'

/** What a maker's sheet states of a make. */
export interface SheetTold {
  /** Which sheet. */
  readonly source: string
  readonly density_g_per_cm3?: MeasuredJson
  readonly tare_g?: MeasuredJson
}

/**
 * Writes down what a sheet states of a make.
 *
 * @param typed - name or id of the make
 * @returns `nothing_stated`, as `findRow`, `record`
 */
export const stateOfMake = async (
  handed: HandedIn,
  typed: string,
  sheet: SheetTold,
  said: Said = {},
): Promise<Outcome<Recorded>> => {
  if (sheet.density_g_per_cm3 === undefined && sheet.tare_g === undefined) {
    return refuse({
      code: 'nothing_stated',
      message: 'Say what the sheet states: a density or the tare of its carriers.',
    })
  }
  return overShelf(handed, async (view) => {
    const make = findRow(view.rows, 'make', typed)
    if (!make.ok) return make
    const ofMake = [...view.cards.values()]
      .filter(({ opened, state }) => opened.make === make.value.id && state !== 'retired')
      .map(({ id }) => id)
    const fact = {
      ...factCommon(handed, said),
      kind: 'data-sheet',
      make: make.value.id,
      ...sheet,
    } as const
    return record(handed, view, { facts: [fact] }, [], ofMake)
  })
}
