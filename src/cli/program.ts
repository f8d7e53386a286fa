import { Command, CommanderError } from 'commander'
import { addOptions } from './add-options.ts'
import { addCatalogueProgram } from './catalogue-program.ts'
import { exitCode } from './fault.ts'
import { addKeepProgram } from './keep-program.ts'
import {
  askOptions,
  checkOptions,
  fileOptions,
  massOptions,
  memberOption,
  pictureOptions,
  printerOptions,
  reelOptions,
  shelfOptions,
  subfoldersOption,
  toolOptions,
} from './option-table.ts'
import { addPlanProgram } from './plan-program.ts'
import { addRecordProgram } from './record-program.ts'
import { addReelProgram } from './reel-program.ts'
import { addServeProgram } from './serve-program.ts'
import { addWatchProgram } from './watch-program.ts'

// What a command needs is loaded when it runs: `--help` must come at once.

const readExamples = `
Examples:
  reelreckon read knob.gcode
  reelreckon read knob.gcode --material PLA        says grams, too
  reelreckon read plates.zip *.gcode --json        data for other programs
  reelreckon read vase.gcode --firmware host       when the file asks which
  reelreckon read prints --subfolders              all in a folder, a line each
  reelreckon read vase.gcode --picture side.svg    from the side, as a picture
  make-a-print | reelreckon read -                 standard input

Exit code: 0 read, 2 wrong usage, 3 unreadable input: one file or more.`

const checkExamples = `
Of the shelf:
  reelreckon check box.gcode
      every reel that could do it, the remnants first
  reelreckon check box.gcode --reel QX5BN --printer 'the Gull'
      one reel, with all that the ledger knows of it
  reelreckon check two.gcode --tool 'T0: reel=QX5BN' --tool 'T1: reel=44SGD'
  reelreckon check prints
      every print in a folder, each by itself, a line each

Without a ledger: tell what you know of the reel; what you do not know is
assumed, and named.
Every figure may carry its uncertainty: '250 ± 5 g'.

Examples:
  reelreckon check box.gcode --gross 422g
      weighed, nothing else known
  reelreckon check box.gcode --gross 422g --tare-of-make 250g --material PLA
      with an empty carrier of the same make weighed
  reelreckon check box.gcode --new --label 1kg --material PETG
      a new reel
  reelreckon check box.gcode --winding 'hub=80mm, outer=95mm, width=60mm'
      without a scale
  reelreckon check box.gcode --gross 401g --tare 262g --cut 2m=5.54g
      a filled filament: two metres cut off and weighed. Mind your fingers.
  reelreckon check --draw 62m --gross 422g --tare 250g --density 1.24
      a length instead of a file
  reelreckon check two.gcode --tool 'T0: gross=905g, tare=279g' \\
                             --tool 'T1: gross=171g, carrier=cardboard'
      a print with two tools
  reelreckon check long.gcode --stretch 1 --gross 301g --tare 221g
      only up to the reel change planned in the file

Exit code: 0 enough, 10 close, 20 short, 2 wrong usage, 3 unreadable input,
4 the ledger can not be read. Of several prints the worst, and 3 where one of
them could not be read.`

const examples = `
Examples:
  reelreckon read box.gcode
  reelreckon check box.gcode --gross 422g --tare 250g --material PLA

reelreckon check --help shows what can be told of a reel.
Hot parts burn, and a printer at work wants someone near: a verdict does not
change that.`

/** The commands with their options. Nothing is run until they are given arguments. */
export const program = (): Command => {
  const all = new Command('reelreckon')
    .description('Will this reel finish this print? Enough, close or short, with the chance.')
    .version('0.1.0', '--version', 'show the version')
    .helpOption('--help', 'show this help')
    .helpCommand(false)
    .configureHelp({ helpWidth: 80 })
    .addHelpText('after', examples)
    .exitOverride()
  const read = all
    .command('read')
    .summary('what a print draws')
    .description('Says what each print draws: filament past the feeder, layers, stops, findings.')
    .argument('<FILE...>', 'machine code, plain, gzip or zip; a folder; - is standard input')
    .addHelpText('after', readExamples)
    .action(async (files: string[], given: Record<string, unknown>) => {
      const { readCommand } = await import('./read-command.ts')
      await readCommand(files, given)
    })
  addOptions(read, [
    ...fileOptions,
    ...massOptions,
    memberOption,
    ...pictureOptions,
    subfoldersOption,
    { name: 'in-full', help: 'of several prints, the whole sheet of each' },
    { name: 'json', help: 'write JSON' },
  ])
  const check = all
    .command('check')
    .summary('will this reel finish it')
    .description(
      'Says whether a reel will finish a print, how sure that is, and where it runs dry.',
    )
    .argument('[FILE...]', 'machine code, plain, gzip or zip; a folder; - is standard input')
    .addHelpText('after', checkExamples)
    .action(async (files: string[], given: Record<string, unknown>) => {
      const { checkCommand } = await import('./check-command.ts')
      await checkCommand(files, given)
    })
  addOptions(check, [
    ...reelOptions,
    ...toolOptions,
    ...shelfOptions,
    ...printerOptions,
    ...checkOptions,
    ...pictureOptions,
    ...fileOptions,
    subfoldersOption,
    ...askOptions,
  ])
  addPlanProgram(all)
  addReelProgram(all)
  addRecordProgram(all)
  addCatalogueProgram(all)
  addKeepProgram(all)
  addWatchProgram(all)
  addServeProgram(all)
  return all
}

/** Runs what the arguments ask for; sets the exit code. */
export const start = async (argv: readonly string[]): Promise<void> => {
  process.stdout.on('error', leaveOnLostOutput)
  try {
    const json = argv.includes('--json')
    const commands = program()
    // With --json the fault is told as data, not in commander's words.
    if (json)
      for (const each of withCommands(commands)) each.configureOutput({ writeErr: () => undefined })
    else {
      const outputError = (text: string, write: (text: string) => void): void =>
        write(withFigureHint(text))
      for (const each of withCommands(commands)) each.configureOutput({ outputError })
    }
    await commands.parseAsync(argv)
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error
    await tellUsage(error, argv.includes('--json'))
  }
}

/** What begins with a minus is taken for an option. */
const withFigureHint = (text: string): string =>
  text.replace(
    /unknown option '(-[\d.,]\S*)'/,
    '$& (if it is a figure: hardly any is below zero; one that is comes after --, as -- $1)',
  )

const withCommands = (command: Command): readonly Command[] => [
  command,
  ...command.commands.flatMap(withCommands),
]

/** `reelreckon … | head` is no failure; a full disk is one. */
const leaveOnLostOutput = ({ code, message }: NodeJS.ErrnoException): void => {
  if (code === 'EPIPE') process.exit()
  process.stderr.write(
    `What was to be said here can not be written (${code ?? message}).\nCheck whether the disk is full. What was recorded stands.\n`,
  )
  process.exit(exitCode.ledger)
}

const tellUsage = async (
  { exitCode: code, message, code: id }: CommanderError,
  json: boolean,
): Promise<void> => {
  if (code === 0) return
  process.exitCode = 2
  if (!json) return
  const { tellFault } = await import('./run.ts')
  const { usageFault } = await import('./fault.ts')
  const stable = id
    .replace(/^commander\./, '')
    .replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
  tellFault(usageFault(stable, withFigureHint(message.replace(/^error: /, ''))), true)
}
