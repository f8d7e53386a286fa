import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { dataOption, fileOptions, pauseOptions } from './option-table.ts'

type Given = Record<string, unknown>

/** The commands that plan what comes next. */
export const addPlanProgram = (all: Command): void => {
  const pause = all
    .command('pause')
    .summary('a copy of a print that stops after a layer')
    .description('Copies a print file so that it waits for a person at the layer ends named.')
    .argument('<FILE>', 'machine code, plain, gzip or zip')
    .addHelpText(
      'after',
      `
The copy is machine code, not packed. It differs from the print only at the
lines that were put in, and is read again before it is handed out.

Examples:
  reelreckon pause box.gcode --after-layer 237 --firmware host \\
      --to with-a-stop.gcode

Nozzle and bed are hot at a stop, and the machine may move: stay with it.

Exit code: 0 done, 2 wrong usage, 3 no such stop can be made or unreadable
input, 4 the copy can not be written, 130 cancelled.`,
    )
    .action(async (file: string, given: Given) => {
      const { pauseCommand } = await import('./pause-command.ts')
      await pauseCommand(file, given)
    })
  addOptions(pause, [
    ...pauseOptions,
    ...fileOptions,
    dataOption,
    { name: 'json', help: 'write JSON' },
  ])
}
