import type { ReelCard } from '../ledger/index.ts'
import { rowName } from './find-row.ts'

/** What a reel is called beside its id: its make, and its colour after a comma. */
export const nameOfReel = ({ make, opened }: Pick<ReelCard, 'make' | 'opened'>): string =>
  [make === undefined ? 'unknown make' : rowName(make), opened.colour?.name]
    .filter((part) => part !== undefined)
    .join(', ')
