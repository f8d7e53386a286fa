import { addCommand, listCommand } from './catalogue-command.ts'
import type { LedgerText } from './open-ledger.ts'

/** `reelreckon person add` */
export const personAddCommand = (name: string, typed: LedgerText): Promise<void> =>
  addCommand('person', typed, async () => ({ name }))

/** `reelreckon person list` */
export const personListCommand = (typed: LedgerText): Promise<void> =>
  listCommand('person', typed, ['name'], ({ name }) => [name])
