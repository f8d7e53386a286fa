import type {
  PrintRowJson,
  WaitingRequest,
  WaitingRowJson,
  WaitingToolJson,
} from '../contract/index.ts'
import { accept, formatCount, type Outcome, refuse } from '../units/index.ts'
import { changedAfter } from './catalogue-rows.ts'
import { findMaterialId } from './find-material-id.ts'
import { findReel } from './find-reel.ts'
import { findRow, folded } from './find-row.ts'
import { findWaiting } from './find-waiting.ts'
import type { HandedIn } from './handed-in.ts'
import { keptPrint } from './kept-print.ts'
import { newRowId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record } from './record.ts'
import { reelTwice } from './reel-twice.ts'
import type { ShelfView } from './shelf-view.ts'
import { copiesWaiting, slateOf } from './slate-order.ts'

/** What is told of a waiting print; names, or ids, where the row has ids. */
export type WaitingTold = Omit<WaitingRequest, 'print'>

/** What changes of it; null: it is not wanted any more. */
export type WaitingChange = {
  readonly [K in keyof WaitingTold]?: WaitingTold[K] | null
} & { readonly done?: number; readonly off?: true | null }

/** The print as read now, or the beginning of the id of one that was kept. */
export type PrintTold = { readonly print: PrintRowJson } | { readonly kept: string }

/**
 * Puts a print on the slate.
 *
 * @returns `name_taken` (it waits already, or another of that name does), `tool_not_used`, `tool_twice`,
 *   `layer_out_of_range`, and as `keptPrint`, `findMaterialId`, `findReel`, `findRow`, `record`
 */
export const addWaiting = (
  handed: HandedIn,
  told: PrintTold,
  { name: called, ...more }: WaitingTold,
): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const found = 'print' in told ? accept(told.print) : await keptPrint(handed, told.kept)
    if (!found.ok) return found
    const print = found.value
    const name = (called ?? nameOfFile(print.file)).trim()
    const free = nameFree(view, name)
    if (!free.ok) return free
    const parts = partsOf(view, print, more)
    if (!parts.ok) return parts
    const now = new Date(handed.now()).toISOString()
    const row: WaitingRowJson = {
      kind: 'waiting',
      id: newRowId(handed, (id) => view.rows.some((each) => each.id === id)),
      changed_at: now,
      name,
      print: print.id,
      added_at: now,
      copies: 1,
      ...parts.value,
    }
    const prints = 'print' in told ? { prints: [print] } : { kept: [print] }
    return record(handed, view, { facts: [], rows: [row], ...prints })
  })

/**
 * Changes what is told of a waiting print; what is not told stays.
 *
 * @param typed - name or id
 * @returns `nothing_changed`, as `findWaiting` and `addWaiting`
 */
export const changeWaiting = (
  handed: HandedIn,
  typed: string,
  { done, ...more }: WaitingChange,
): Promise<Outcome<Recorded>> =>
  overShelf(handed, async (view) => {
    const change = { ...more, ...(done !== undefined && { done: done === 0 ? null : done }) }
    const found = findWaiting(view.rows, typed)
    if (!found.ok) return found
    const before = found.value
    const print = await handed.store.print(before.print)
    const told = Object.fromEntries(
      Object.entries(change).filter(([, value]) => value !== null),
    ) as WaitingTold
    const parts = partsOf(view, print, told)
    if (!parts.ok) return parts
    const row = Object.fromEntries(
      Object.entries({ ...before, ...change, ...parts.value }).filter(
        ([, value]) => value !== null,
      ),
    ) as unknown as WaitingRowJson
    if (JSON.stringify(row) === JSON.stringify(before)) {
      return refuse({
        code: 'nothing_changed',
        message: `Nothing of ${before.name} is told that was not known. Say what to change.`,
      })
    }
    if (folded(row.name) !== folded(before.name)) {
      const free = nameFree(view, row.name)
      if (!free.ok) return free
    }
    const waits = copiesWaiting(row)
    const notes =
      waits === 0 && row.off !== true
        ? [`All copies of ${row.name} are done: it is off the slate.`]
        : []
    const changed = { ...row, changed_at: changedAfter(before, handed.now()) }
    return record(handed, view, { facts: [], rows: [changed] }, notes)
  })

const nameOfFile = (file: string): string => {
  const last = file.split(/[/\\]/).at(-1) ?? file
  const bare = last.replace(/\.(?:gcode|gco|g|nc)(?:\.gz)?$/i, '').replaceAll(/\p{Cc}+/gu, ' ')
  return bare.trim() === '' ? 'print' : bare.slice(0, 500)
}

/** Names are told apart among prints that wait; one that is done may come again. */
const nameFree = (view: Pick<ShelfView, 'rows'>, name: string): Outcome<void> => {
  const same = slateOf(view.rows).find((row) => folded(row.name) === folded(name))
  if (same === undefined) return accept(undefined)
  return refuse({
    code: 'name_taken',
    message: `"${same.name}" waits already (${same.id}). For more copies of it: reelreckon slate change ${same.id} --copies N. For another print, give it another --name.`,
    received: name,
  })
}

type Parts = Partial<Omit<WaitingRowJson, 'kind' | 'id' | 'print' | 'added_at' | 'changed_at'>>

/** What was told, names looked up and held against the print. */
const partsOf = (
  view: ShelfView,
  print: PrintRowJson | undefined,
  told: WaitingTold,
): Outcome<Parts> => {
  const printers: string[] = []
  for (const typed of told.printers ?? []) {
    const found = findRow(view.rows, 'printer', typed)
    if (!found.ok) return found
    if (!printers.includes(found.value.id)) printers.push(found.value.id)
  }
  const tools: WaitingToolJson[] = []
  for (const one of told.tools ?? []) {
    const tool = toolOf(view, print, one)
    if (!tool.ok) return tool
    if (tools.some((each) => each.tool === one.tool)) {
      return refuse({
        code: 'tool_twice',
        message: `T${one.tool} is told twice. Say what it wants once.`,
        received: `T${one.tool}`,
      })
    }
    tools.push(tool.value)
  }
  const twice = reelTwice(
    tools.flatMap(({ tool, reel }) => (reel === undefined ? [] : [{ tool, reel }])),
  )
  if (twice !== undefined) return refuse(twice)
  const beyond = told.changes?.after_layers?.find(
    ([, last]: readonly [number, number]) => print !== undefined && last >= print.layers.count,
  )
  if (beyond !== undefined) {
    const count = print!.layers.count
    return refuse({
      code: 'layer_out_of_range',
      message: `The print has ${formatCount(count, 'layer')}: ${count === 1 ? 'there is none to change after' : `a change can stand after layer 1 to ${count - 1}`}.`,
      expected: `1 to ${count - 1}`,
      received: `${beyond[1]}`,
    })
  }
  return accept({
    ...told,
    ...(told.name !== undefined && { name: told.name.trim() }),
    ...(told.tools && { tools: tools.toSorted((a, b) => a.tool - b.tool) }),
    ...(told.printers && { printers }),
  })
}

const toolOf = (
  view: ShelfView,
  print: PrintRowJson | undefined,
  { tool, material, reel, ...more }: WaitingToolJson,
): Outcome<WaitingToolJson> => {
  const fed = new Set(
    print?.families.flatMap(({ tools }) =>
      tools.filter(({ peak_mm }) => peak_mm > 0).map((each) => each.tool),
    ),
  )
  if (print !== undefined && !fed.has(tool)) {
    return refuse({
      code: 'tool_not_used',
      message: `The print does not feed from T${tool}. It feeds from ${[...fed].map((each) => `T${each}`).join(', ')}.`,
      received: `T${tool}`,
    })
  }
  const wanted = material === undefined ? undefined : findMaterialId(view.rows, material)
  if (wanted?.ok === false) return wanted
  const only = reel === undefined ? undefined : findReel(view, reel)
  if (only?.ok === false) return only
  return accept({
    tool,
    ...(wanted && { material: wanted.value }),
    ...more,
    ...(only && { reel: only.value }),
  })
}
