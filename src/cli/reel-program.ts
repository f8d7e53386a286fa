import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { makeOptions, recordOptions, type ValueOption, weighingOptions } from './option-table.ts'
import { addReelAskProgram } from './reel-ask-program.ts'

const addReelOptions: readonly ValueOption[] = [
  { name: 'make', value: 'NAME', help: 'its make, by name or id; a new one with those below' },
  ...makeOptions.map((option) =>
    Object.assign({}, option, { help: `of a new make: ${option.help}` }),
  ),
  { name: 'label', value: 'MASS', help: 'net mass on its label, as 1kg' },
  { name: 'gross-new', value: 'MASS', help: 'the reel on the scale before anything was fed' },
  { name: 'gross', value: 'MASS', help: 'the reel on the scale now' },
  ...weighingOptions,
  { name: 'part-used', help: 'some of it had been fed before' },
  { name: 'price', value: 'PRICE', help: "what was paid for it, as '21.90 EUR'" },
  { name: 'colour', value: 'NAME', help: 'of the filament' },
  { name: 'srgb', value: '#RRGGBB', help: 'the colour on a screen' },
  { name: 'lot', value: 'TEXT', help: "the maker's lot" },
  { name: 'place', value: 'TEXT', help: 'where it stands' },
  { name: 'count', value: 'N', help: 'several alike, each with an id of its own' },
]

const addExamples = `
Examples:
  reelreckon reel add --make 'Kittiwake PLA' --maker Kittiwake --material PLA \\
      --label 1kg --colour 'tar black'
      a new reel of a new make
  reelreckon reel add --make 'Kittiwake PLA' --label 1kg --count 3
      three more of the same
  reelreckon reel add --make 'Kittiwake PLA' --part-used --gross 422g
      a reel that had been printed from before

Exit code: 0 recorded, 10 the weighing is surprising and was not recorded,
2 wrong usage, 4 the ledger can not be read or written.`

/** `reelreckon reel …`: the reels on the shelf. */
export const addReelProgram = (all: Command): void => {
  const reel = all
    .command('reel')
    .summary('reels on the shelf: add, …')
    .description('The reels on the shelf.')
  const add = reel
    .command('add')
    .summary('a reel arrives')
    .description('Puts a reel on the shelf and gives it an id to write on it.')
    .addHelpText('after', addExamples)
    .action(async (given: Record<string, unknown>) => {
      const { reelAddCommand } = await import('./reel-add-command.ts')
      await reelAddCommand(given)
    })
  addOptions(add, [...addReelOptions, ...recordOptions])
  addReelAskProgram(reel)
}
