import { link, rename, rm } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { PausedCopyJson } from '../contract/index.ts'
import { type FirmwareFamilyId, firmwareFamilies, type PausePurpose } from '../print/index.ts'
import { findRow } from '../service/index.ts'
import { cancelling } from './cancelling.ts'
import { usageFault } from './fault.ts'
import { makePausedCopy } from './make-paused-copy.ts'
import { type LedgerText, withKnownLedger } from './open-ledger.ts'
import { type FileText, parseFileOptions } from './parse-file-options.ts'
import { parseLayer } from './parse-layer.ts'
import { run } from './run.ts'
import { sayCount, sayHeight, sayLength } from './say.ts'
import { taken } from './taken.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'
import { faultOfWriting, isThere, targetExists } from './write-whole.ts'

/** What was typed after `pause`. */
interface PauseText extends FileText, LedgerText {
  readonly afterLayer?: readonly string[]
  readonly to?: string
  readonly for?: string
  readonly note?: string
  readonly printer?: string
  readonly member?: string
  readonly overwrite?: boolean
}

/** `reelreckon pause`: a copy of a print file that waits for a person at layer ends. */
export const pauseCommand = (file: string, typed: PauseText): Promise<void> =>
  run(typed.json === true, async () => {
    const layers = (typed.afterLayer ?? []).map((each) =>
      parseLayer(each, {
        code: 'layer_malformed',
        option: '--after-layer',
        how: 'Give its number, counted from 1, as 57.',
      }),
    )
    const to = targetOf(file, typed, layers)
    const purpose = parsePurpose(typed.for)
    const options = parseFileOptions(typed)
    const firmware = options.firmware ?? (await firmwareOfPrinter(typed))
    if (typed.overwrite !== true && (await isThere(to))) throw targetExists(to)
    const draft = `${to}.${process.pid}.part`
    const told = await cancelling(async (signal) => {
      try {
        const made = await makePausedCopy(
          {
            file,
            layers,
            purpose,
            draft,
            options: { ...options, firmware },
            ...(typed.member !== undefined && { member: typed.member }),
            ...(typed.note !== undefined && { note: typed.note }),
          },
          signal,
        )
        if (typed.overwrite === true) await rename(draft, to)
        else await link(draft, to)
        return { ...made, to }
      } catch (error) {
        throw faultOfWriting(error, to, signal)
      } finally {
        await rm(draft, { force: true })
      }
    })
    const json = `${JSON.stringify(told satisfies PausedCopyJson, null, 2)}\n`
    return { text: typed.json === true ? json : report(told), exit: 0 }
  })

const targetOf = (file: string, { to }: PauseText, layers: readonly number[]): string => {
  if (file === '-') {
    throw usageFault(
      'pause_needs_file',
      'A copy is made by going through the print several times, which standard input can not: give a FILE.',
    )
  }
  if (layers.length === 0) {
    throw usageFault(
      'layer_missing',
      'Say after which layer to stop, as --after-layer 57. check names the last one that is safe.',
      '--after-layer',
    )
  }
  if (to === undefined || to === '-') {
    throw usageFault(
      'target_missing',
      'Say where the copy goes, as --to box-stops.gcode. The print itself stays as it is.',
      '--to',
    )
  }
  if (resolve(to) === resolve(file)) {
    throw usageFault(
      'target_is_print',
      '--to names the print itself, which stays as it is. Name another file.',
      '--to',
    )
  }
  return to
}

const parsePurpose = (typed: string | undefined): PausePurpose => {
  if (typed === undefined || typed === 'change') return 'change'
  if (typed === 'pause') return 'pause'
  throw usageFault(
    'purpose_unknown',
    `--for: "${typed}" is neither change (another reel) nor pause (anything else).`,
    '--for',
  )
}

const firmwareOfPrinter = async (typed: PauseText): Promise<FirmwareFamilyId> => {
  const choice = firmwareFamilies.map(({ id, description }) => `\n  ${id}: ${description}`).join('')
  if (typed.printer === undefined) {
    throw usageFault(
      'firmware_needed',
      `Firmware families are told to wait in different words. Name the printer with --printer, or say with --firmware which of them runs it:${choice}`,
      '--firmware',
    )
  }
  const row = await withKnownLedger(typed, async ({ store }) =>
    taken(findRow(await store.catalogue(), 'printer', typed.printer!), '--printer'),
  )
  const family = firmwareFamilies.find(({ id }) => id === row.firmware)
  if (family !== undefined) return family.id
  throw usageFault(
    'firmware_needed',
    `The ledger does not know the firmware of ${row.name}. Say it with --firmware, or once with printer change. It is one of${choice}`,
    '--firmware',
  )
}

const report = (told: PausedCopyJson): string => {
  const stops = told.pauses.map(({ after_layer, height_mm, line, drawn_mm }) => {
    const drawn = drawn_mm
      .map(({ tool, draw_mm }) => `${drawn_mm.length > 1 ? `T${tool} ` : ''}${sayLength(draw_mm)}`)
      .join(', ')
    return `  after layer ${String(after_layer).padEnd(6)}${sayHeight(height_mm).padEnd(14)}${drawn} drawn by then; line ${line} of the copy`
  })
  const count = sayCount(told.pauses.length, 'stop')
  return `${[
    wrap(`${harmless(told.to)}: a copy that waits at ${count}, by ${told.command}.`, '  '),
    '',
    ...stops,
    '',
    wrap(told.does, '  '),
    wrap(told.needs, '  '),
    ...told.notes.map((note) => wrap(note, '  ')),
    '',
    wrap(
      `Read again: without ${told.pauses.length === 1 ? 'that line' : 'those lines'} it is the original byte for byte, and it draws the same.`,
      '  ',
    ),
    wrap(told.caution, '  '),
  ].join('\n')}\n`
}
