import { createHash } from 'node:crypto'
import { knob } from '../../demo/prints/knob.ts'
import type { LedgerRecord, PrintRowJson } from '../../src/contract/index.ts'
import { printRowOf } from '../../src/ledger/index.ts'
import { readPrint } from '../../src/print/index.ts'
import { openStore } from '../../src/store/index.ts'

const moment = '2026-02-01T12:00:00.000Z'
const changed_at = moment
const knobPrint = (): PrintRowJson => {
  const bytes = new TextEncoder().encode(knob.write())
  const reading = readPrint([bytes])
  if (!reading.ok) throw new Error(reading.refusal.message)
  const id = createHash('sha256').update(bytes).digest('hex')
  return printRowOf(reading.value, { id, file: 'knob.gcode', bytes: bytes.length, changed_at })
}
const print = knobPrint()
const wanted = { print: print.id, added_at: moment, copies: 2 }
const said = { at: moment, recorded_at: moment }

/** The two reels that docs/command-line.md and the help speak of, with what they need. */
const records: readonly LedgerRecord[] = [
  {
    kind: 'make',
    id: 'HNUSM',
    changed_at,
    maker: 'Kittiwake',
    name: 'PLA',
    material: 'pla',
    label_net_g: 1000,
  },
  { kind: 'printer', id: 'BQ6FA', changed_at, name: 'left printer' },
  {
    kind: 'scale',
    id: 'VTK5J',
    changed_at,
    name: 'kitchen scale',
    step_g: 1,
    repeatability_g: 0.5,
    gain: 0.001,
  },
  print,
  { kind: 'waiting', id: 'GYU9W', changed_at, name: 'knob', ...wanted },
  { kind: 'waiting', id: '3U4XR', changed_at, name: 'vase', ...wanted },
  { kind: 'waiting', id: 'N3JQN', changed_at, name: 'hinge-pin', ...wanted, off: true },
  { kind: 'person', id: 'XJYBF', changed_at, name: 'Maud' },
  { kind: 'opened', id: 'B7K2MMQ9P', ...said, reel: 'K7RMY', make: 'HNUSM', label_net_g: 1000 },
  { kind: 'opened', id: 'FDY3V93XK', ...said, reel: 'P3QX6', make: 'HNUSM', label_net_g: 1000 },
  {
    kind: 'weighed',
    id: '4HK7PQ2WY',
    ...said,
    reel: 'K7RMY',
    weighing: { scale: 'VTK5J', reading_g: 1262 },
  },
]

/** Writes them into a folder. */
export const writeDocsLedger = async (folder: string): Promise<void> => {
  const opened = await openStore(folder)
  if (!opened.ok) throw new Error(opened.refusal.message)
  const written = await opened.value.append(records)
  if (!written.ok) throw new Error(written.refusal.message)
  await opened.value.close()
}
