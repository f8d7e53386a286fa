import type { KeptJson } from '../contract/index.ts'
import { cancelling } from './cancelling.ts'
import { copying } from './copying.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import { isLedgerThere, ledgerFolder } from './ledger-folder.ts'
import type { LedgerText } from './open-ledger.ts'
import { run } from './run.ts'
import { sayCount } from './say.ts'
import { talkAtTerminal } from './talk.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

/** `reelreckon restore`: a backup in the place of the ledger. */
export const restoreCommand = (
  file: string,
  typed: LedgerText & { readonly yes?: boolean },
): Promise<void> =>
  run(typed.json === true, async () => {
    const folder = await ledgerFolder(typed.data)
    const replaces = await isLedgerThere(typed.data)
    if (replaces && typed.yes !== true) await askFirst(file, folder, typed.json === true)
    const { restore } = await import('../store/index.ts')
    const { facts, rows, prints, before } = await cancelling((signal) =>
      copying(file, (progress) => restore(file, folder, { progress, signal })),
    )
    const kept: KeptJson = { file, facts, rows, prints, kept: before ?? null }
    const said = `Restored from ${harmless(file)}: ${sayCount(facts, 'fact')}, ${sayCount(rows, 'catalogue row')}, ${sayCount(prints, 'print')}.${before === undefined ? '' : ` What stood there before is kept as ${harmless(before)}.`}`
    return {
      text: typed.json === true ? `${JSON.stringify(kept, null, 2)}\n` : `${wrap(said, '  ')}\n`,
      exit: 0,
    }
  })

/** @throws Fault where nobody says yes */
const askFirst = async (file: string, folder: string, json: boolean): Promise<void> => {
  const talk = talkAtTerminal(json)
  if (talk === undefined) {
    throw usageFault(
      'not_agreed',
      `There is a ledger in ${folder}, which ${file} would take the place of. Repeat with --yes if that is meant; what is there is kept beside it.`,
      '--yes',
    )
  }
  try {
    const answer = await talk.ask(
      `Put ${harmless(file)} in the place of the ledger in ${harmless(folder)}? What is there is kept beside it. [yes/no] `,
    )
    if (/^y(es)?$/i.test(answer ?? '')) return
  } finally {
    talk.end()
  }
  throw new Fault(exitCode.cancelled, {
    code: 'cancelled',
    message: 'Left as it was.',
  })
}
