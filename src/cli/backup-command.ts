import type { KeptJson } from '../contract/index.ts'
import { cancelling } from './cancelling.ts'
import { copying } from './copying.ts'
import { ledgerFolder } from './ledger-folder.ts'
import type { LedgerText } from './open-ledger.ts'
import { run } from './run.ts'
import { sayCount } from './say.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

/** `reelreckon backup`: the ledger in one file. */
export const backupCommand = (
  file: string,
  typed: LedgerText & { readonly overwrite?: boolean },
): Promise<void> =>
  run(typed.json === true, async () => {
    const { backUp } = await import('../store/index.ts')
    const folder = await ledgerFolder(typed.data)
    const { facts, rows, prints } = await cancelling((signal) =>
      copying(file, (progress) =>
        backUp(folder, file, { progress, signal, overwrite: typed.overwrite === true }),
      ),
    )
    const kept: KeptJson = { file, facts, rows, prints, kept: null }
    const said = `Backed up to ${harmless(file)}: ${sayCount(facts, 'fact')}, ${sayCount(rows, 'catalogue row')}, ${sayCount(prints, 'print')}, checked through.`
    return {
      text: typed.json === true ? `${JSON.stringify(kept, null, 2)}\n` : `${wrap(said, '  ')}\n`,
      exit: 0,
    }
  })
