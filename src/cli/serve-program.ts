import type { Command } from 'commander'
import { addOptions } from './add-options.ts'
import { dataOption } from './option-table.ts'

const examples = `
Examples:
  reelreckon serve
  reelreckon serve --demo --open
  reelreckon serve --new-pass-phrase
  reelreckon serve --host 0.0.0.0 --name shelf.home.arpa

Only this machine reaches it unless --host says otherwise; then it asks for the
pass-phrase. Over a network without https anybody on it can listen.

Exit code: 0 ended, 2 wrong usage, 4 the ledger can not be read or written.`

/** The command that opens the app. */
export const addServeProgram = (all: Command): void => {
  const serve = all
    .command('serve')
    .summary('the app in a browser, and its API')
    .description('Serves the app and its API until it is ended with Ctrl-C.')
    .addHelpText('after', examples)
    .action(async (given: Record<string, unknown>) => {
      const { serveCommand } = await import('./serve-command.ts')
      await serveCommand(given)
    })
  addOptions(serve, [
    { name: 'port', value: 'NUMBER', help: '4173 unless given; 0 takes one that is free' },
    { name: 'host', value: 'ADDRESS', help: 'where it listens; 127.0.0.1 unless given' },
    {
      name: 'name',
      value: 'NAME',
      help: 'a name by which it may be called, too; may be repeated',
      repeated: true,
    },
    { name: 'demo', help: 'a demo shelf, which is gone when it ends' },
    { name: 'open', help: 'open it in the browser, where there is a desktop' },
    { name: 'new-pass-phrase', help: 'set the pass-phrase up, a line of standard input, and end' },
    dataOption,
  ])
}
