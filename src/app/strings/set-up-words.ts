import type { MayJson } from '../../contract/index.ts'
import { formatIsoDay } from '../../units/index.ts'

const count = new Intl.NumberFormat('en-GB')
const several = (many: number, one: string, more: string): string =>
  many === 1 ? `1 ${one}` : `${count.format(many)} ${more}`

/** What a token may do, in words. */
export const tokenMays: Readonly<Record<MayJson, string>> = {
  look: 'Look only',
  record: 'Look, and record what happens to reels',
  set_up: 'Everything: set up, import and restore as well',
}

/** Words of the set-up sheet and its parts. */
export const setUpWords = {
  lead: 'What this bench has and believes, and how its ledger is kept safe.',
  parts: {
    printers: ['Printers', 'what they feed and use beside the file'],
    makes: ['Makes', 'makers’ product lines, and what was learnt of their carriers'],
    materials: ['Materials', 'of your own, beside the built-in table'],
    scales: ['Scales', 'steps and slope'],
    people: ['People', 'who records'],
    priors: ['Priors', 'what is believed before anything is measured'],
    backup: ['Backup and restore', 'the ledger in one file'],
    import: ['Import and export', 'another ledger, or a table from a spreadsheet'],
    access: ['Pass-phrase and tokens', 'who may use this server'],
    demo: ['Demo shelf', 'the shelf of an invented bench, to look around with'],
  },
  demoOn:
    'The demo shelf stands in the place of your own ledger, which stays as it is. What is written meanwhile is written to the demo shelf, and is gone with it.',
  demoOff:
    'The demo shelf is that of an invented repair bench, with reels, prints and printers. It takes the place of your own ledger until it is removed; your own stays as it is.',
  noPart: 'There is no such part of the set-up.',
  back: 'All of the set-up',
  failed: 'This can not be shown',
  fetching: 'Fetching …',
  notWritten: 'Not written down',
  keep: 'Keep',
  cancel: 'Cancel',
  change: 'Change',
  retire: 'Retire',
  useAgain: 'Take into use again',

  backUp: 'Back up',
  backUpLead:
    'A backup is the whole ledger in one file, checked through. Keep it on another disk than this one.',
  backUpGet: 'Get a backup',
  restore: 'Restore',
  restoreLead:
    'A backup takes the place of the ledger as it is now. What stands there is kept beside it on the server’s disk.',
  restoreChoose: 'Choose a backup',
  restoreSending: (name: string): string => `Sending ${name}`,
  restoreChecking: (name: string): string => `${name} is sent; the server checks it …`,
  restoreBytes: (sent: number, of: number): string => `${megabytes(sent)} of ${megabytes(of)} MB`,
  restoreAsk: (name: string): string => `Put ${name} in the place of the ledger?`,
  restoreHolds: (facts: number, rows: number, prints: number): string =>
    `It holds ${several(facts, 'fact', 'facts')}, ${several(rows, 'catalogue row', 'catalogue rows')} and ${several(prints, 'print', 'prints')}, and is sound. What is in the ledger and not in it will not be on the shelf any more.`,
  restoreYes: 'Put it in its place',
  restoreNo: 'Leave the ledger as it is',
  restored: (name: string): string => `Restored from ${name}.`,
  restoredKept: (path: string): string =>
    `What stood there before is kept on the server as ${path}`,
  restoreLeft: 'Stopped. The ledger is as it was.',
  restoreRefused: (name: string): string => `${name} was not restored`,

  exporting: 'Export',
  exportLead: 'The whole ledger as lines of JSON, which another ledger can take over:',
  exportGet: 'Get shelf.ndjson',
  tablesLead: 'Parts of it as tables for a spreadsheet (CSV), for reading:',
  tables: {
    reels: 'reels',
    facts: 'facts',
    makes: 'makes',
    printers: 'printers',
    scales: 'scales',
    people: 'people',
    materials: 'materials',
    prints: 'prints',
    slate: 'slate',
    running: 'running prints',
  },

  tokens: 'Tokens',
  passPhrase: 'Pass-phrase',
  passPhraseSet:
    'The pass-phrase is set on the machine that serves, so that nobody who merely reaches this page can change it:',
  passPhraseCommand: 'reelreckon serve --new-pass-phrase',
  logInNeeded: 'This server asks for its pass-phrase.',
  logInNotNeeded: 'Only this machine reaches this server, so nobody need log in.',
  tokensLead:
    'A program logs in with a token, sent as “Authorization: Bearer TOKEN”. Make one for each, so that one can be taken back.',
  noTokens: 'No token has been made.',
  tokenName: 'What is it for?',
  tokenHint: 'As: the scale at the bench',
  tokenMake: 'Make a token',
  tokenMade: (name: string): string => `The token for “${name}”. It is not shown again:`,
  tokenCopy: 'Copy',
  tokenCopied: 'Copied.',
  tokenSeen: 'I have it',
  tokenMay: 'What may it do?',
  tokenMadeAt: (at: string, may: MayJson): string => `${tokenMays[may]}; made ${formatIsoDay(at)}`,
  tokenBack: 'Take back',
  tokenBackOf: (name: string): string => `Take back the token for ${name}`,
  tokenAsk: (name: string): string => `Take back “${name}”? Programs that use it are kept out.`,
  tokenYes: 'Take it back',
  tokenNo: 'Keep it',
  tokenGone: (name: string): string => `The token for “${name}” is taken back.`,
} as const

const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)
