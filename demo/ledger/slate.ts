import { createHash } from 'node:crypto'
import type { LedgerRecord, WaitingRowJson } from '../../src/contract/index.ts'
import { printRowOf } from '../../src/ledger/index.ts'
import { readPrint } from '../../src/print/index.ts'
import type { DemoPrint } from '../demo-print.ts'
import { demoPrints } from '../prints/index.ts'

type Wanted = Omit<WaitingRowJson, 'kind' | 'id' | 'print' | 'changed_at' | 'added_at'>

const pla = { tool: 0, material: 'pla' }
const petg = { tool: 0, material: 'petg' }

/** What waits at the bench, and of which print. */
const wanted: readonly (readonly [file: string, wanted: Wanted])[] = [
  [
    'two-tool-part.gcode',
    {
      name: 'port and starboard badge',
      copies: 2,
      importance: 2,
      tools: [
        { ...pla, colours: ['port-light red', 'lifebuoy orange'] },
        { tool: 1, material: 'pla', colours: ['foam white'] },
      ],
      note: 'for the sailing school',
    },
  ],
  [
    'tackle-box.gcode',
    {
      name: 'tackle box',
      copies: 2,
      tools: [{ ...pla, colours: ['gull grey', 'tar black', 'foam white'] }],
      changes: { most: 1, after_layers: [[40, 250]] },
    },
  ],
  ['knob.gcode', { name: 'winch knob', copies: 4, tools: [pla] }],
  ['battery-door.gcode', { name: 'battery door', copies: 2, tools: [petg] }],
  [
    'hinge-pin.gcode',
    { name: 'hinge pin', copies: 6, tools: [{ ...petg, colours: ['clear', 'slate'] }] },
  ],
  [
    'vase.gcode',
    { name: 'vase', copies: 1, importance: -1, tools: [{ ...petg, colours: ['brown'] }] },
  ],
]

const rowOf = (
  { fileName, write }: DemoPrint,
  changed_at: string,
): LedgerRecord & { id: string } => {
  const bytes = new TextEncoder().encode(write())
  const reading = readPrint([bytes], { motion: {} })
  if (!reading.ok) throw new Error(reading.refusal.message)
  const id = createHash('sha256').update(bytes).digest('hex')
  return printRowOf(reading.value, { id, file: fileName, bytes: bytes.length, changed_at })
}

/** The bench's slate: what waits, and the prints as they were read. */
export const harbourSlate = (moment: string, newId: () => string): readonly LedgerRecord[] => {
  const prints = new Map(
    wanted.map(([file]) => {
      const print = demoPrints.find(({ fileName }) => fileName === file)!
      return [file, rowOf(print, moment)] as const
    }),
  )
  // oxlint-disable-next-line oxc/no-map-spread -- few, and made once
  const rows = wanted.map(
    ([file, one]): WaitingRowJson => ({
      kind: 'waiting',
      id: newId(),
      changed_at: moment,
      print: prints.get(file)!.id,
      added_at: moment,
      ...one,
    }),
  )
  return [...rows, ...prints.values()]
}
