import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import {
  catalogueOptions,
  dataOption,
  fileOptions,
  matchOptions,
  pauseOptions,
  type ValueOption,
  waitingOptions,
} from './option-table.ts'

type Given = Record<string, unknown>

/** The commands that plan what comes next. */
export const addPlanProgram = (all: Command): void => {
  addSlate(all)
  addMatch(all)
  addPause(all)
}

const exits = `

Exit code: 0 done, 2 wrong usage, 4 the ledger can not be read or written.`

const by: ValueOption = { name: 'by', value: 'PERSON', help: 'who says so' }

const addSlate = (all: Command): void => {
  const slate = all
    .command('slate')
    .summary('prints that wait: add, list, change, …')
    .description('The prints that wait: add, list, change, take off, put back.')
    .helpCommand(false)
  const add = slate
    .command('add')
    .summary('a print that is to be printed')
    .description('Puts a print on the slate, with what it wants of its filament.')
    .argument('[FILE]', 'machine code, plain, gzip or zip; - is standard input')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon slate add box.gcode --material PLA --colour red --copies 3
  reelreckon slate add two.gcode --tool 'T0: material=PLA, colour=red or blue' \\
      --due 2026-12-24${exits}`,
    )
    .action(async (file: string | undefined, given: Given) => {
      const { slateAddCommand } = await import('./slate-commands.ts')
      await slateAddCommand(file, given)
    })
  addOptions(add, [
    ...waitingOptions,
    { name: 'print', value: 'HASH', help: 'a print that was kept, by the beginning of its hash' },
    { name: 'member', value: 'NAME', help: 'which print of a zip with several' },
    {
      name: 'accept',
      help: 'take the file as it was read, though it may be cut short or in other units',
    },
    ...fileOptions,
    by,
    ...catalogueOptions,
  ])
  const list = slate
    .command('list')
    .summary('what waits')
    .description('The prints that wait, the most urgent first.')
    .argument('[WAITING]', 'name or id of one of them')
    .addHelpText(
      'after',
      `\nExamples:\n  reelreckon slate list\n  reelreckon slate list --json${exits}`,
    )
    .action(async (waiting: string | undefined, given: Given) => {
      const { slateListCommand } = await import('./slate-commands.ts')
      await slateListCommand(waiting, given)
    })
  addOptions(list, [
    { name: 'all', help: 'those that are done or taken off, too' },
    ...catalogueOptions,
  ])
  const change = slate
    .command('change')
    .summary('what is wanted of a waiting print')
    .description('Changes what is wanted of a waiting print; what is not told stays.')
    .argument('<WAITING>', 'name or id')
    .addHelpText(
      'after',
      `\nExamples:\n  reelreckon slate change knob --copies 5 --importance 2${exits}`,
    )
    .action(async (waiting: string, given: Given) => {
      const { slateChangeCommand } = await import('./slate-commands.ts')
      await slateChangeCommand(waiting, given)
    })
  addOptions(change, [
    ...waitingOptions,
    { name: 'done', value: 'N', help: 'how many copies are printed' },
    {
      name: 'forget',
      value: 'WHAT',
      help: 'tools, printers, due, importance, changes, takes or note; may be repeated',
      repeated: true,
    },
    by,
    ...catalogueOptions,
  ])
  for (const [verb, isOff, summary] of [
    ['take-off', true, 'a print is not to be printed after all'],
    ['put-back', false, 'a print that was taken off waits again'],
  ] as const) {
    const command = slate
      .command(verb)
      .summary(summary)
      .description(
        isOff
          ? 'Takes a print off the slate; it can be put back.'
          : 'Puts a print that was taken off back on the slate.',
      )
      .argument('<WAITING>', 'name or id')
      .addHelpText(
        'after',
        `\nExamples:\n  reelreckon slate ${verb} ${isOff ? 'vase' : 'hinge-pin'}${exits}`,
      )
      .action(async (waiting: string, given: Given) => {
        const { slateOffCommand } = await import('./slate-commands.ts')
        await slateOffCommand(waiting, given, isOff)
      })
    addOptions(command, [by, ...catalogueOptions])
  }
}

const addMatch = (all: Command): void => {
  const match = all
    .command('match')
    .summary('which reel for which waiting print')
    .description(
      'Says which reel serves which waiting print, so that none runs out, the fewest reels are opened and stubs are used up.',
    )
    .addHelpText(
      'after',
      `
Examples:
  reelreckon match
  reelreckon match --why --limit 30s
  reelreckon match --lock 'knob=K7RMY' --forbid P3QX6 --drop vase
  reelreckon match --new-reel 'make=Kittiwake PLA, colour=red' --confidence 99%
  reelreckon match --busy 'left printer=23:30' --keep --notes
  reelreckon match --busy 'left printer=23:30, print=knob.gcode, reel=K7RMY'

Nozzle and bed are hot at a change, and the machine may move: stay with it.

Exit code: 0 all are served, 10 some are late, 20 some are not served, 2 wrong
usage, 4 the ledger can not be read or written, 130 cancelled.`,
    )
    .action(async (given: Given) => {
      const { matchCommand } = await import('./match-command.ts')
      await matchCommand(given)
    })
  addOptions(match, [...matchOptions, ...catalogueOptions])
}

const addPause = (all: Command): void => {
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
