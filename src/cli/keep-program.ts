import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { dataOption, type ValueOption } from './option-table.ts'

const json: ValueOption = { name: 'json', help: 'write JSON' }
const overwrite: ValueOption = { name: 'overwrite', help: 'take the place of what is there' }

const exits = `
Exit code: 0 done, 2 wrong usage, 3 unreadable input, 4 the ledger can not be
read or written, 130 cancelled.`

const importOptions: readonly ValueOption[] = [
  { name: 'dry-run', help: 'show what would be written, and write nothing' },
  { name: 'skip-bad', help: 'take the rows that are good, and leave the others out' },
  {
    name: 'column',
    value: 'KEY=HEADING',
    help: "of a table, which column is what, as 'make=Product'; may be repeated",
    repeated: true,
  },
  { name: 'delimiter', value: 'MARK', help: 'of a table, what stands between cells; else seen' },
  { name: 'scale', value: 'NAME', help: 'of a table, the scale of its weighings' },
  { name: 'currency', value: 'CODE', help: 'of a table, where its prices name none, as EUR' },
  { name: 'unused', help: 'of a table, nothing was fed from any of its reels' },
  { name: 'by', value: 'PERSON', help: 'who says so' },
]

/** The commands that keep the ledger safe and carry it about. */
export const addKeepProgram = (all: Command): void => {
  const backup = all
    .command('backup')
    .summary('copy the ledger into one file')
    .description('Copies the ledger into one file and checks the copy, while others may write.')
    .argument('<FILE>', 'the file to make')
    .addHelpText('after', `\nExamples:\n  reelreckon backup shelf-backup.sqlite\n${exits}`)
    .action(async (file: string, given: Record<string, unknown>) => {
      const { backupCommand } = await import('./backup-command.ts')
      await backupCommand(file, given)
    })
  addOptions(backup, [overwrite, dataOption, json])
  const restore = all
    .command('restore')
    .summary('put a backup in the place of the ledger')
    .description('Puts a backup in the place of the ledger; what stood there is kept beside it.')
    .argument('<FILE>', 'a backup')
    .addHelpText('after', `\nExamples:\n  reelreckon restore shelf-backup.sqlite --yes\n${exits}`)
    .action(async (file: string, given: Record<string, unknown>) => {
      const { restoreCommand } = await import('./restore-command.ts')
      await restoreCommand(file, given)
    })
  addOptions(restore, [{ name: 'yes', help: 'do not ask' }, dataOption, json])
  const exporting = all
    .command('export')
    .summary('the whole ledger as lines of JSON, or as tables')
    .description('Writes the whole ledger as lines of JSON, or as CSV tables for a spreadsheet.')
    .argument('[FILE]', 'the file to make; - or none is standard output')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon export shelf.ndjson
  reelreckon export | gzip > shelf.ndjson.gz
  reelreckon export --tables shelf-tables
${exits}`,
    )
    .action(async (file: string | undefined, given: Record<string, unknown>) => {
      const { exportCommand } = await import('./export-command.ts')
      await exportCommand(file, given)
    })
  addOptions(exporting, [
    { name: 'tables', value: 'FOLDER', help: 'CSV tables into this folder instead' },
    overwrite,
    dataOption,
    json,
  ])
  const importing = all
    .command('import')
    .summary('take over a ledger, or a table of reels')
    .description('Takes over the lines of another ledger, or reels out of a CSV table.')
    .argument('<FILE>', 'lines of JSON or a table, told by what is in it; - is standard input')
    .addHelpText(
      'after',
      `
Examples:
  reelreckon import shelf.ndjson
  reelreckon import reels.csv --scale 'kitchen scale' --dry-run
  reelreckon import reels.csv --column 'make=Product' --scale 'kitchen scale'

All is written, or nothing: with --skip-bad all that is good.
${exits}`,
    )
    .action(async (file: string, given: Record<string, unknown>) => {
      const { importCommand } = await import('./import-command.ts')
      await importCommand(file, given)
    })
  addOptions(importing, [...importOptions, dataOption, json])
}
