import type { RunningChangeRequest, RunningRequest, RunningRowJson } from '../../contract/index.ts'
import type { Api } from '../api/api.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { asksToLogIn, OutOfTouch, ProblemFault } from '../api/problem-fault.ts'
import { isKept, keep, kept } from '../look/kept.ts'
import { ledgerShown } from '../offline/ledger-shown.ts'
import { isForNow } from '../offline/waiting-weighings.ts'
import {
  type ChangeWaiting,
  type PictureOfPrint,
  type RunningHere,
  type RunningPrint,
  withNext,
} from './running-print.ts'

/** Under these the browser keeps it; what an older version of the app kept as `running` is sent as any start. */
const names = {
  starts: 'running',
  changes: 'running-changes',
  pictures: 'running-pictures',
} as const
/** So many pictures are kept: those of the prints that were started last. */
const mostPictures = 12

const listeners = new Set<() => void>()

const isObjectWith =
  (...keys: readonly string[]) =>
  (one: unknown): boolean =>
    typeof one === 'object' && one !== null && keys.every((key) => key in one)

const parse = (text: string | null): unknown => {
  try {
    return JSON.parse(text ?? 'null')
  } catch {
    return null
  }
}

const listOf = <T>(text: string | null, isOne: (one: unknown) => one is T): readonly T[] => {
  const list: unknown = parse(text)
  return Array.isArray(list) ? list.filter((one: unknown): one is T => isOne(one)) : []
}

const isStart = (one: unknown): one is RunningPrint =>
  isObjectWith('draw', 'print', 'reels', 'layers')(one)
const isChange = (one: unknown): one is ChangeWaiting => isObjectWith('id', 'draw', 'change')(one)

let last: { readonly texts: readonly (string | null)[]; readonly here: RunningHere } | null = null

/** As it is kept; read anew each time, as another page of this browser may change it. */
export const runningHere = (): RunningHere => {
  const texts = [kept(names.starts), kept(names.changes), kept(names.pictures)] as const
  if (last?.texts.every((text, place) => text === texts[place]) !== true) {
    const pictures = parse(texts[2])
    last = {
      texts,
      here: {
        starts: listOf(texts[0], isStart),
        changes: listOf(texts[1], isChange),
        pictures: (isObjectWith()(pictures) ? pictures : {}) as RunningHere['pictures'],
      },
    }
  }
  return last.here
}

/** Told whenever it changes, in this page or another of the browser. @returns how to stop */
export const listenHere = (changed: () => void): (() => void) => {
  listeners.add(changed)
  addEventListener('storage', changed)
  return () => {
    listeners.delete(changed)
    removeEventListener('storage', changed)
  }
}

const write = (next: Partial<Pick<RunningHere, 'starts' | 'changes'>>): void => {
  for (const [name, list] of Object.entries(next)) {
    const key = names[name as keyof typeof next]
    const text = JSON.stringify(list)
    if (text !== (kept(key) ?? '[]')) keep(key, text)
  }
  for (const listener of listeners) listener()
}

const writePicture = (print: string, picture: PictureOfPrint): void => {
  const others = Object.entries(runningHere().pictures).filter(([one]) => one !== print)
  const all = [...others.slice(1 - mostPictures), [print, picture] as const]
  keep(names.pictures, JSON.stringify(Object.fromEntries(all)))
}

/** Whether what waits here outlives the page: a browser may refuse to keep it. */
export const isRunningKept = (): boolean => isKept(names.starts) && isKept(names.changes)

/** Keeps that a print was started, until the server has it. */
export const startHere = (one: Omit<RunningPrint, 'ledger'>): void => {
  writePicture(one.print, { share: one.layers.share, picture: one.picture })
  write({ starts: [...runningHere().starts, { ...one, ledger: ledgerShown() }] })
}

/** The starts with what changed of one of them. */
const withChange = (
  starts: readonly RunningPrint[],
  draw: string,
  { took_over: next, ended }: RunningChangeRequest,
): readonly RunningPrint[] =>
  starts.flatMap((one) => {
    if (one.draw !== draw) return [one]
    if (ended != null) return []
    return [next === undefined ? one : { ...one, reels: withNext(one.reels, next) }]
  })

/**
 * Keeps what changed of a print that runs, until the server has it. A start that was sent is not changed any
 * more, though no answer came: the server may have it as it was.
 *
 * @returns by what it is known; null where it changed what waits here itself
 */
export const changeHere = (draw: string, change: RunningChangeRequest): string | null => {
  const { starts, changes } = runningHere()
  const start = starts.find((one) => one.draw === draw)
  if (start !== undefined && start.tried !== true) {
    write({ starts: withChange(starts, draw, change) })
    return null
  }
  const id = newFactId()
  write({ changes: [...changes, { id, draw, ledger: ledgerShown(), change }] })
  return id
}

/** Leaves out a change that was not taken. */
export const leaveOut = (id: string): void =>
  write({ changes: runningHere().changes.filter((one) => one.id !== id) })

/** Sends a start, by its draw, or a change, by its id, again that was not taken. */
export const askAgain = (id: string): void => {
  const { starts, changes } = runningHere()
  write({
    starts: starts.map((one) => (one.draw === id ? withoutAsks(one) : one)),
    changes: changes.map((one) => (one.id === id ? withoutAsks(one) : one)),
  })
}

const withoutAsks = <T extends { readonly asks?: string }>({ asks: _asks, ...one }: T) => one

/** Forgets what waits of a print that was written down, or never ran. */
export const endHere = (draw: string): void => {
  const { starts, changes } = runningHere()
  write({
    starts: starts.filter((one) => one.draw !== draw),
    changes: changes.filter((one) => one.draw !== draw),
  })
}

/** Forgets what waits for a ledger that is gone. */
export const endHereOf = (ledger: string): void => {
  const { starts, changes } = runningHere()
  write({
    starts: starts.filter((one) => one.ledger !== ledger),
    changes: changes.filter((one) => one.ledger !== ledger),
  })
}

/** Why the server did not take a start, by its draw, or a change, by its id. */
export const whyNot = (id: string | null): string | undefined => {
  const { starts, changes } = runningHere()
  return (starts.find(({ draw }) => draw === id) ?? changes.find((one) => one.id === id))?.asks
}

const mayGo = ({ ledger, asks }: RunningPrint | ChangeWaiting): boolean =>
  ledger === ledgerShown() && asks === undefined

/**
 * What is to be sent next to the ledger that is shown; what was refused is not.
 *
 * @param held - draws of which something failed for now: what comes after it waits with it
 */
const next = (
  held: ReadonlySet<string> = new Set(),
): { readonly start?: RunningPrint; readonly change?: ChangeWaiting } => {
  const { starts, changes } = runningHere()
  const goes = (one: RunningPrint | ChangeWaiting): boolean => mayGo(one) && !held.has(one.draw)
  const start = starts.find(goes)
  if (start) return { start }
  // Of what the server does not know to run nothing can change.
  const change = changes.find((one) => goes(one) && starts.every(({ draw }) => draw !== one.draw))
  return change ? { change } : {}
}

/** Names what would be sent next; undefined where nothing waits. */
export const waitsNext = (): string | undefined => {
  const { start, change } = next()
  return start?.draw ?? change?.id
}

const requestOf = ({
  draw: id,
  print,
  printer,
  started_at,
  reels,
  firmware,
  takes,
  told,
}: RunningPrint): RunningRequest => ({
  id,
  print,
  printer,
  started_at,
  reels,
  ...(firmware !== undefined && { firmware }),
  // An older version kept the moments beside.
  ...(takes && {
    takes: { early_s: takes.early_s, likely_s: takes.likely_s, late_s: takes.late_s },
  }),
  ...(told && { told }),
})

/** Told of a row that the server took, and of the start that it came by. */
export type TakenRow = (row: RunningRowJson, start?: RunningPrint) => void

let sending: Promise<void> | null = null

/** Sends what waits, until the server can not be reached; what it refuses stays with why. */
export const sendRunning = (
  api: Pick<Api, 'startRunning' | 'changeRunning'>,
  taken: TakenRow,
): Promise<void> => {
  sending ??= sendAll(api, taken).finally(() => {
    sending = null
  })
  return sending
}

const sendAll = async (
  api: Pick<Api, 'startRunning' | 'changeRunning'>,
  taken: TakenRow,
): Promise<void> => {
  const held = new Set<string>()
  for (;;) {
    const { start, change } = next(held)
    try {
      // oxlint-disable-next-line no-await-in-loop -- in the order in which they were made
      if (start) await sendStart(api, start, taken)
      // oxlint-disable-next-line no-await-in-loop -- as above
      else if (change) await sendChange(api, change, taken)
      else return
    } catch (error) {
      // What fails for now waits where it is, and is tried again.
      if (error instanceof OutOfTouch || asksToLogIn(error)) return
      if (!(error instanceof ProblemFault)) throw error
      const draw = start?.draw ?? change?.draw ?? ''
      if (isForNow(error)) held.add(draw)
      else if (start) refuseStart(draw, error.message)
      else refuseChange(change?.id, error.message)
    }
  }
}

/** The server does not have it: what was told of it meanwhile changes it here. */
const refuseStart = (draw: string, asks: string): void => {
  const { starts, changes } = runningHere()
  const changed = changes
    .filter((one) => one.draw === draw)
    .reduce((all, { change }) => withChange(all, draw, change), starts)
  write({
    starts: changed.map((one) => (one.draw === draw ? refusedAs(one, asks) : one)),
    changes: changes.filter((one) => one.draw !== draw),
  })
}

const refusedAs = ({ tried: _tried, ...one }: RunningPrint, asks: string): RunningPrint => ({
  ...one,
  asks,
})

const refuseChange = (id: string | undefined, asks: string): void =>
  write({
    changes: runningHere().changes.map((one) =>
      one.id === id ? Object.assign({}, one, { asks }) : one,
    ),
  })

const sendStart = async (
  api: Pick<Api, 'startRunning'>,
  start: RunningPrint,
  taken: TakenRow,
): Promise<void> => {
  const { draw, print, layers, picture } = start
  write({
    starts: runningHere().starts.map((one) =>
      one.draw === draw ? Object.assign({}, one, { tried: true as const }) : one,
    ),
  })
  const { rows } = await api.startRunning(requestOf(start))
  if (runningHere().pictures[print] === undefined) {
    writePicture(print, { share: layers.share, picture })
  }
  const row = rows.find((one) => one.kind === 'running')
  if (row?.kind === 'running') taken(row, start)
  write({ starts: runningHere().starts.filter((one) => one.draw !== draw) })
}

const sendChange = async (
  api: Pick<Api, 'changeRunning'>,
  { id, draw, change }: ChangeWaiting,
  taken: TakenRow,
): Promise<void> => {
  const { rows } = await api.changeRunning(draw, change)
  const row = rows.find((one) => one.kind === 'running')
  if (row?.kind === 'running') taken(row)
  leaveOut(id)
}
