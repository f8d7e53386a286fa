import type { SlateJson, WaitingRowJson } from '../contract/index.ts'
import { standingFacts } from '../ledger/index.ts'
import type { Store } from '../store/index.ts'
import { printsOfSlate } from './prints-of-slate.ts'
import { slateToJson } from './slate-to-json.ts'

/** Waiting prints with what is known of their prints, in the order given. */
export const tellSlate = async (
  store: Pick<Store, 'catalogue' | 'facts' | 'print' | 'prints'>,
  waiting: readonly WaitingRowJson[],
): Promise<SlateJson> => {
  const rows = await store.catalogue()
  const standing = standingFacts(await store.facts())
  return slateToJson({ rows, standing }, waiting, await printsOfSlate(store, waiting))
}
