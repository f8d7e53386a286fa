import { shelfView } from '../service/index.ts'
import { answered, type LedgerText, withLedger } from './open-ledger.ts'
import { run } from './run.ts'

/** `reelreckon reel add`: a reel arrives. */
export const reelAddCommand = (typed: LedgerText): Promise<void> =>
  run(typed.json === true, () =>
    withLedger(typed, async (ledger) => {
      const view = answered(await shelfView(ledger.store))
      return { text: `${view.cards.size} reels\n`, exit: 0 }
    }),
  )
