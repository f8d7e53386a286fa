/** What can be shown where the answer goes. */
export interface Terminal {
  readonly colour: 'none' | '256' | 'full'
  /** False where only ASCII is sure to be seen. */
  readonly unicode: boolean
}

/** What a colour stands for; it never stands alone. */
export type Role = 'enough' | 'close' | 'short' | 'faint' | 'strong'

/** M. Okabe and K. Ito's palette: bluish green, orange, vermilion; and the nearest of 256. */
const palette: Readonly<Record<Role, { readonly full: string; readonly '256': string }>> = {
  enough: { full: '38;2;0;158;115', '256': '38;5;36' },
  close: { full: '38;2;230;159;0', '256': '38;5;214' },
  short: { full: '38;2;213;94;0', '256': '38;5;166' },
  faint: { full: '2', '256': '2' },
  strong: { full: '1', '256': '1' },
}

type Environment = Readonly<Record<string, string | undefined>>

/**
 * What standard output can show.
 *
 * @see https://no-color.org
 */
export const terminalOf = (isTerminal: boolean, env: Environment, platform: string): Terminal => {
  const { NO_COLOR: noColour, TERM: term, COLORTERM: depth } = env
  const plain = !isTerminal || (noColour !== undefined && noColour !== '') || term === 'dumb'
  const locale = [env['LC_ALL'], env['LC_CTYPE'], env['LANG']].find((each) => each)
  return {
    colour: plain ? 'none' : depth === 'truecolor' || depth === '24bit' ? 'full' : '256',
    unicode: platform === 'win32' || platform === 'darwin' || /utf-?8/i.test(locale ?? ''),
  }
}

/** Colours a text. */
export const paint = ({ colour }: Terminal, role: Role, text: string): string =>
  colour === 'none' ? text : `\u001B[${palette[role][colour]}m${text}\u001B[0m`

const plainForms: ReadonlyMap<string, string> = new Map(
  Object.entries({
    '█': '#',
    '▓': '=',
    '▒': '-',
    '░': '.',
    '╭': '.',
    '╮': '.',
    '╰': "'",
    '╯': "'",
    '─': '-',
    '┄': '-',
    '╴': ' ',
    '╵': ' ',
    '│': '|',
    '├': '|',
    '┤': '|',
    '┬': '+',
    '└': '+',
    '┘': '+',
    '▲': '^',
    '·': ',',
    '×': 'x',
    '±': '+-',
    '³': '3',
    '²': '2',
    '°': ' deg ',
    λ: 'lambda',
    π: 'pi',
    '√': 'sqrt',
    '–': '-',
    '−': '-',
    '’': "'",
    '…': '...',
    ' ': ' ',
  }),
)

const letters = /\P{ASCII}/gu

/** The text as it can be shown: in ASCII where nothing else is sure. */
export const shown = ({ unicode }: Terminal, text: string): string =>
  unicode ? text : text.replace(letters, (letter) => plainForms.get(letter) ?? '?')

/** Text out of a file, with nothing in it that would move the cursor or change the terminal. */
export const harmless = (text: string): string =>
  text.replaceAll(/[\p{Cc}\p{Cf}\u2028\u2029]/gu, '\uFFFD')
