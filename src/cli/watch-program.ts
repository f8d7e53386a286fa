import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import {
  checkOptions,
  dataOption,
  fileOptions,
  massOptions,
  printerOptions,
  reelOptions,
  shelfOptions,
  subfoldersOption,
} from './option-table.ts'

const examples = `
Examples:
  reelreckon watch prints
  reelreckon watch prints --subfolders --printer 'the Gull' --keep
  reelreckon watch prints --reel K7RMY --printer 'the Gull'
  reelreckon watch prints --json | while read line; do echo "$line"; done

Each print is judged by itself, over the whole shelf as it is, or by the reel
named: when a reel is weighed or a print recorded, by whomever, the verdicts are
told anew. Ctrl-C ends it.

Exit code: 0 ended, 2 wrong usage, 3 the folder can not be read.`

const ofMany = new Set(['confidence'])

/** The command that follows a folder. */
export const addWatchProgram = (all: Command): void => {
  const watch = all
    .command('watch')
    .summary('reads prints as they arrive in a folder')
    .description('Reads prints as they arrive in a folder, and keeps the verdicts on them current.')
    .argument('<FOLDER>', 'where prints arrive')
    .addHelpText('after', examples)
    .action(async (folder: string, given: Record<string, unknown>) => {
      const { watchCommand } = await import('./watch-command.ts')
      await watchCommand(folder, given)
    })
  addOptions(watch, [
    subfoldersOption,
    { name: 'keep', help: 'keep what was read of each print in the ledger' },
    ...reelOptions.filter(({ name }) => name === 'reel'),
    ...massOptions.filter(({ name }) => name !== 'density'),
    ...shelfOptions.filter(({ name }) => name !== 'all'),
    ...printerOptions,
    ...checkOptions.filter(({ name }) => ofMany.has(name)),
    ...fileOptions,
    dataOption,
    { name: 'json', help: 'write a line of JSON for each thing that happens' },
  ])
}
