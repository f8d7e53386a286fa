import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { askOptions, type ValueOption } from './option-table.ts'

const listOptions: readonly ValueOption[] = [
  { name: 'material', value: 'NAME', help: 'only reels of this material' },
  { name: 'colour', value: 'WORDS', help: 'only reels of this colour' },
  { name: 'make', value: 'WORDS', help: 'only reels of this maker or make' },
  { name: 'place', value: 'WORDS', help: 'only reels that stand there' },
  { name: 'all', help: 'those that are empty or left the shelf, too' },
]

const showOptions: readonly ValueOption[] = [
  { name: 'at', value: 'WHEN', help: 'what was on it then, by what is known now' },
  {
    name: 'known-at',
    value: 'WHEN',
    help: 'by the facts written down then; makes, printers and scales as now',
  },
]

const listExamples = `
Examples:
  reelreckon reel list
  reelreckon reel list --material PLA --place 'long shelf'
  reelreckon reel list --all --json

Exit code: 0 listed, 2 wrong usage, 3 unreadable input, 4 the ledger can not be
read.`

const showExamples = `
Examples:
  reelreckon reel show QX5BN
  reelreckon reel show 'foam white'
      by words of its make and colour, where they fit one reel only
  reelreckon reel show QX5BN --at 2025-08-02
      what was on it that day

Exit code: 0 shown, 2 wrong usage, 3 unreadable input, 4 the ledger can not be
read.`

/** The commands of `reelreckon reel …` that only ask. */
export const addReelAskProgram = (reel: Command): void => {
  const list = reel
    .command('list')
    .summary('what stands on the shelf')
    .description('Lists the reels of the shelf with what is on them.')
    .addHelpText('after', listExamples)
    .action(async (given: Record<string, unknown>) => {
      const { reelListCommand } = await import('./reel-list-command.ts')
      await reelListCommand(given)
    })
  addOptions(list, [...listOptions, ...askOptions])
  const show = reel
    .command('show')
    .summary('all there is to know of a reel')
    .description('Shows what is on a reel, what that rests on, and its life.')
    .argument('<REEL>', 'its id, or words of its make and colour')
    .addHelpText('after', showExamples)
    .action(async (named: string, given: Record<string, unknown>) => {
      const { reelShowCommand } = await import('./reel-show-command.ts')
      await reelShowCommand(named, given)
    })
  addOptions(show, [...showOptions, ...askOptions])
}
