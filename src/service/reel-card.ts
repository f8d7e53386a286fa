import type { ReelCard } from '../ledger/index.ts'
import { rowName } from './find-row.ts'

/** Whether filament can still be fed from it. */
export const isInUse = ({ state }: Pick<ReelCard, 'state'>): boolean =>
  state === 'new' || state === 'part-used'

/** What a make has unless it says otherwise, mm. */
export const usualDiameter_mm = 1.75

/** Nominal diameter of its filament, mm. */
export const diameterOfReel = ({ make }: Pick<ReelCard, 'make'>): number =>
  make?.nominal_diameter_mm ?? usualDiameter_mm

/** Maker and name of its make. */
export const makeOfReel = ({ make }: Pick<ReelCard, 'make'>): string =>
  make === undefined ? 'unknown make' : rowName(make)
