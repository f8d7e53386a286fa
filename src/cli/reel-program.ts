import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { recordOptions, type ValueOption } from './option-table.ts'
import { addReelAskProgram } from './reel-ask-program.ts'

const addReelOptions: readonly ValueOption[] = [
  { name: 'make', value: 'NAME', help: 'its make, by name or id; new with the options of a make' },
  { name: 'maker', value: 'NAME', help: 'of a new make: who makes it' },
  { name: 'material', value: 'NAME', help: 'of a new make: PLA, PETG, …' },
  { name: 'diameter', value: 'LENGTH', help: 'of a new make: 1.75mm (the default) or 2.85mm' },
  {
    name: 'carrier',
    value: 'KIND',
    help: 'of a new make: plastic, cardboard, refill-core, metal',
  },
  { name: 'label', value: 'MASS', help: 'net mass on its label, as 1kg' },
  { name: 'gross-new', value: 'MASS', help: 'the reel on the scale before anything was fed' },
  { name: 'gross', value: 'MASS', help: 'the reel on the scale now' },
  { name: 'scale', value: 'NAME', help: 'the scale it stood on' },
  { name: 'part-used', help: 'some of it had been fed before today' },
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
  reelreckon reel add --make 'Kittiwake PLA' --count 3
      three more of the same
  reelreckon reel add --make 'Kittiwake PLA' --part-used --gross 422g
      a reel that had been printed from before

Exit code: 0 recorded, 2 wrong usage, 4 the ledger can not be read or written.`

/** `reelreckon reel …`: the reels on the shelf. */
export const addReelProgram = (all: Command): void => {
  const reel = all
    .command('reel')
    .summary('the reels on the shelf')
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
