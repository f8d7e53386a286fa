import { relative } from 'node:path'
import type { ErrorPartJson, WatchJson } from '../contract/index.ts'
import { type CheckRow, checkRow } from './check-row.ts'
import { checkHeading, checkLines, checkNotes, feedingNotes } from './check-table.ts'
import type { Checked } from './checker.ts'
import { nameIn } from './file-name-column.ts'
import { sayCount, sayLength, upTo } from './say.ts'
import { onStandIn } from './stand-in-lines.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { wrap } from './wrap.ts'

/** Something that is told of a folder that is followed, with what its sheet needs beside. */
export interface WatchTold {
  readonly told: WatchJson
  /** Folder that is followed: names are told from there on. */
  readonly folder: string
  /** Of a print that was judged. */
  readonly found?: Checked
  /** Of a print with tools that no reel is named for. */
  readonly isUnsuited?: boolean
  /** Of a shelf that changed: how many verdicts did with it. */
  readonly changed?: number
}

const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })
const margin = 9
const nameWidth = 20

/** What is told, as lines: each with the time of day before it. */
export const watchReport = (
  terminal: Terminal,
  { told, folder, found, isUnsuited, changed }: WatchTold,
): string => {
  const at = `  ${clock.format(new Date(told.at))}`
  const say = (text: string): string => `${wrap(harmless(text), `${at}  `, ' '.repeat(margin))}\n`
  switch (told.event) {
    case 'watching':
      return `\n${wrap(harmless(`Watching ${told.folder}${told.subfolders ? ' and the folders in it' : ''}. Each print is judged by itself, as if it were the next one. Ctrl-C ends it.`), '  ')}\n\n`
    case 'shelf':
      return shelfLine(terminal, told, changed, say)
    case 'judged':
      return found === undefined
        ? drawLine(within(folder, told), isUnsuited === true, say)
        : judgedLines(terminal, within(folder, told), found, at)
    case 'unread':
      return told.again
        ? say(
            `${nameOf(folder, told.error.file) ?? ''} is not whole yet, as it seems; it is read again.`,
          )
        : say(`Not read: ${troubleOf({ ...told.error, file: nameOf(folder, told.error.file) })}`)
    case 'gone':
      return say(`${relative(folder, told.file)} is gone.`)
    case 'trouble':
      return say(troubleOf(told.error))
    case 'mended':
      return say(`The ${told.what} can be read again.`)
    case 'ended':
      return `\n${wrap(`Ended. ${sayCount(told.prints, 'print')} followed to the end.`, '  ')}\n`
    default:
      return told satisfies never
  }
}

/** The same with the name as it is in the folder. */
const within = (
  folder: string,
  told: Extract<WatchJson, { event: 'judged' }>,
): Extract<WatchJson, { event: 'judged' }> => ({
  ...told,
  print: { ...told.print, file: relative(folder, told.print.file) },
})

/** A file as the folder has it. */
const nameOf = (folder: string, file: string | null): string | null =>
  file === null ? null : relative(folder, file)

const troubleOf = ({ file, line, message }: ErrorPartJson): string => {
  const place = line === null || line === 0 ? '' : `line ${line}: `
  return file === null ? message : `${file}: ${place}${message}`
}

const shelfLine = (
  terminal: Terminal,
  { revision, reels }: Extract<WatchJson, { event: 'shelf' }>,
  changed: number | undefined,
  say: (text: string) => string,
): string => {
  if (changed !== undefined) {
    return changed === 0
      ? ''
      : say(`The shelf changed, and ${sayCount(changed, 'verdict')} with it:`)
  }
  if (revision === null) {
    return say(
      'There is no ledger yet: what each print draws is told, and no verdict. See reelreckon reel add --help.',
    )
  }
  return reels === 0
    ? say('No reel on the shelf is in use: what each print draws is told, and no verdict.')
    : `${say(`${sayCount(reels, 'reel')} in use on the shelf.`)}\n${' '.repeat(margin - 2)}${paint(terminal, 'faint', checkHeading(nameWidth))}\n`
}

const drawLine = (
  { print, tools }: Extract<WatchJson, { event: 'judged' }>,
  isUnsuited: boolean,
  say: (text: string) => string,
): string => {
  const draws = tools.map(
    ({ tool, peak_mm }) => `${tools.length > 1 ? `T${tool} ` : ''}${sayLength(peak_mm)}`,
  )
  const size = `${sayCount(print.layers, 'layer')}${print.top_mm === null ? '' : ` to z ${upTo(print.top_mm, 2)} mm`}`
  return say(
    `${nameIn(print, 40)} draws ${draws.join(', ')} in ${size}.${isUnsuited ? ' It feeds from more tools than the one that a reel is named for.' : ''}`,
  )
}

const judgedLines = (
  terminal: Terminal,
  { print, why }: Extract<WatchJson, { event: 'judged' }>,
  found: Checked,
  at: string,
): string => {
  const row: CheckRow = checkRow(found, print, Date.now())
  const [first = '', ...more] = checkLines(terminal, row, nameWidth)
  return [
    at + first,
    ...more.map((line) => ' '.repeat(at.length) + line),
    ...feedingNotes([row]),
    // What there is to know of the file was told when it was read.
    ...(why === 'read' ? checkNotes(row) : []),
    ...(why === 'read' && row.standIn !== null
      ? [`${' '.repeat(margin)}${harmless(onStandIn(row.standIn))}`]
      : []),
    '',
  ].join('\n')
}
