const count = new Intl.NumberFormat('en-GB')
const hour = new Intl.DateTimeFormat('en-GB', { timeStyle: 'short' })

/** Words about the server, the ledger it keeps, and who may use it. */
export const touchWords = {
  ledger: 'Ledger',
  ledgers: { demo: 'demo shelf', own: 'your own' },
  revision: 'Revision',
  revisionAt: (revision: number, at: Date): string =>
    `${count.format(revision)}, ${hour.format(at)}`,
  server: 'Server',
  inTouch: 'in touch',
  outOfTouch: 'out of touch',
  seeking: 'looking for it',
  loadDemo: 'Look around with the demo shelf',
  removeDemo: 'Remove the demo shelf',
  logOut: 'Log out',
  logIn: 'Log in',
  passPhrase: 'Pass-phrase',
  askPhrase: 'This server asks for its pass-phrase.',
  whence: 'Whoever started the server set it up: reelreckon serve --new-pass-phrase',
} as const
