import type { Store } from '../store/index.ts'
import type { Outcome } from '../units/index.ts'

/** The store in a folder; in the usual place for data unless given. The database is loaded only now. */
export const openStoreIn = async (folder: string | undefined): Promise<Outcome<Store>> => {
  const { dataFolder, openStore } = await import('../store/index.ts')
  return openStore(folder === undefined || folder === '' ? dataFolder() : folder)
}
