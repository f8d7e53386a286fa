import { access } from 'node:fs/promises'
import { join } from 'node:path'

/** The folder of the ledger: as given, else REELRECKON_DATA, else the usual place for data. */
export const ledgerFolder = async (data: string | undefined): Promise<string> => {
  const named = data ?? process.env['REELRECKON_DATA'] ?? ''
  if (named !== '') return named
  const { dataFolder } = await import('../store/index.ts')
  return dataFolder()
}

/** Whether somebody has begun a ledger there. */
export const isLedgerThere = async (data: string | undefined): Promise<boolean> => {
  const { ledgerName } = await import('../store/index.ts')
  return access(join(await ledgerFolder(data), ledgerName)).then(
    () => true,
    () => false,
  )
}
