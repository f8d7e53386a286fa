import type { MakeRowJson } from '../contract/index.ts'
import { factsOfMake, findMaterialId, type RowTold, shelfView } from '../service/index.ts'
import { addCommand, changeCommand, listCommand } from './catalogue-command.ts'
import { factLines } from './fact-lines.ts'
import { usageFault } from './fault.ts'
import { answered, type LedgerText, lookingAtLedger, type OpenLedger } from './open-ledger.ts'
import { type MakeText, parseMake } from './parse-make.ts'
import { jsonText } from './record-command.ts'
import { run } from './run.ts'
import { harmless, paint } from './terminal.ts'
import { wrap } from './wrap.ts'

/** What was typed after `make add` and `make change`. */
export interface MakeCommandText extends LedgerText, MakeText {
  readonly name?: string
  readonly note?: string
}

const partsOf = async (
  ledger: OpenLedger,
  typed: MakeCommandText,
): Promise<Partial<RowTold<'make'>>> => {
  const { material, note, name } = typed
  const parts = parseMake(typed)
  if (material === undefined) {
    return { ...parts, ...(name !== undefined && { name }), ...(note !== undefined && { note }) }
  }
  const found = answered(findMaterialId(await ledger.store.catalogue(), material))
  return {
    ...parts,
    material: found,
    ...(name !== undefined && { name }),
    ...(note !== undefined && { note }),
  }
}

/** `reelreckon make add` */
export const makeAddCommand = (name: string, typed: MakeCommandText): Promise<void> =>
  addCommand('make', typed, async (ledger) => {
    const { maker } = typed
    if (maker === undefined) {
      throw usageFault('maker_needed', 'Say who makes it: --maker NAME.', '--maker')
    }
    return { ...(await partsOf(ledger, typed)), maker, name }
  })

/** `reelreckon make change` */
export const makeChangeCommand = (make: string, typed: MakeCommandText): Promise<void> =>
  changeCommand('make', make, typed, (ledger) => partsOf(ledger, typed))

/** `reelreckon make list` */
export const makeListCommand = (typed: LedgerText): Promise<void> =>
  listCommand(
    'make',
    typed,
    ['maker', 'name', 'material', 'diameter', 'label', 'carrier'],
    (row: MakeRowJson, all) => {
      const own = all.find(({ id }) => id === row.material)
      return [
        row.maker,
        row.name,
        own?.kind === 'material' ? own.name : (row.material ?? '–'),
        `${row.nominal_diameter_mm ?? 1.75} mm`,
        row.label_net_g === undefined ? '–' : `${row.label_net_g} g`,
        row.carrier ?? '–',
      ]
    },
  )

/** `reelreckon make show`: what was told of a make and of no reel. */
export const makeShowCommand = (make: string, typed: LedgerText): Promise<void> =>
  run(typed.json === true, (terminal) =>
    lookingAtLedger(typed, async ({ store }) => {
      const told = answered(factsOfMake(answered(await shelfView(store)), make))
      if (typed.json === true) return { text: jsonText(told), exit: 0 }
      const lines = [
        '',
        `  ${paint(terminal, 'strong', told.make)}  ${harmless(told.name)}`,
        '',
        ...(told.facts.length === 0
          ? [wrap('Nothing was told of it alone: the facts of its reels stand with them.', '  ')]
          : factLines(terminal, told.facts)),
        '',
      ]
      return { text: `${lines.join('\n')}\n`, exit: 0 }
    }),
  )
