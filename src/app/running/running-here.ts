import type { RunningChangeRequest, RunningRequest, RunningRowJson } from '../../contract/index.ts'
import type { Api } from '../api/api.ts'
import { newFactId } from '../api/new-fact-id.ts'
import { OutOfTouch, ProblemFault } from '../api/problem-fault.ts'
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

const listOf = <T>(text: string | null, isOne: (one: unknown) => boolean): readonly T[] => {
  const list = parse(text)
  return Array.isArray(list) ? (list.filter(isOne) as readonly T[]) : []
}

const isStart = isObjectWith('draw', 'print', 'reels', 'layers')
const isChange = isObjectWith('id', 'draw', 'change')

let last: { readonly texts: readonly (string | null)[]; readonly here: RunningHere } | null = null

/** As it is kept; read anew each time, as another page of this browser may change it. */
export const runningHere = (): RunningHere => {
  const texts = [kept(names.starts), kept(names.changes), kept(names.pictures)] as const
  if (last?.texts.every((text, place) => text === texts[place]) !== true) {
    const pictures = parse(texts[2])
    last = {
      texts,
      here: {
        starts: listOf<RunningPrint>(texts[0], isStart),
        changes: listOf<ChangeWaiting>(texts[1], isChange),
        pictures: (isObjectWith()(pictures) ? pictures : {}) as RunningHere['pictures'],
      },
    }
  }
  return last!.here
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

/** Of the starts that are being sent: the server may have them already. */
const sent = new Set<string>()

/**
 * Keeps what changed of a print that runs, until the server has it.
 *
 * @returns by what it is known; null where it changed what waits here itself
 */
export const changeHere = (draw: string, change: RunningChangeRequest): string | null => {
  const { starts, changes } = runningHere()
  const { took_over: next, ended } = change
  if (starts.some((one) => one.draw === draw) && !sent.has(draw)) {
    write({
      starts: starts.flatMap((one) =>
        one.draw !== draw
          ? [one]
          : ended != null
            ? []
            : [next === undefined ? one : { ...one, reels: withNext(one.reels, next) }],
      ),
    })
    return null
  }
  const id = newFactId()
  write({ changes: [...changes, { id, draw, ledger: ledgerShown(), change }] })
  return id
}

/** Leaves out a change that was not taken. */
export const leaveOut = (id: string): void =>
  write({ changes: runningHere().changes.filter((one) => one.id !== id) })

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

/** What is to be sent next to the ledger that is shown; what was refused is not. */
const next = (): { readonly start?: RunningPrint; readonly change?: ChangeWaiting } => {
  const { starts, changes } = runningHere()
  const mayGo = ({ ledger, asks }: RunningPrint | ChangeWaiting): boolean =>
    ledger === ledgerShown() && asks === undefined
  const start = starts.find(mayGo)
  const change = changes.find(mayGo)
  return start ? { start } : change ? { change } : {}
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
  for (;;) {
    const { start, change } = next()
    if (start === undefined && change === undefined) return
    try {
      // oxlint-disable-next-line no-await-in-loop -- in the order in which they were made
      await (start ? sendStart(api, start, taken) : sendChange(api, change!, taken))
    } catch (error) {
      const isRefused = error instanceof ProblemFault && !isForNow(error)
      // What fails for now waits where it is, and is tried again.
      if (!isRefused) {
        if (error instanceof OutOfTouch || error instanceof ProblemFault) return
        throw error
      }
      const asks = error.message
      const { starts, changes } = runningHere()
      // What was told of it meanwhile was told of what is not there.
      const ofIt = changes.filter(({ draw }) => draw === start?.draw)
      if (start && ofIt.length > 0) {
        endHere(start.draw)
        continue
      }
      write({
        starts: starts.map((one) =>
          one.draw === start?.draw ? Object.assign({}, one, { asks }) : one,
        ),
        changes: changes.map((one) =>
          one.id === change?.id ? Object.assign({}, one, { asks }) : one,
        ),
      })
    }
  }
}

const sendStart = async (
  api: Pick<Api, 'startRunning'>,
  start: RunningPrint,
  taken: TakenRow,
): Promise<void> => {
  const { draw, print, layers, picture } = start
  sent.add(draw)
  try {
    const { rows } = await api.startRunning(requestOf(start))
    if (runningHere().pictures[print] === undefined) {
      writePicture(print, { share: layers.share, picture })
    }
    const row = rows.find((one) => one.kind === 'running')
    if (row?.kind === 'running') taken(row, start)
    write({ starts: runningHere().starts.filter((one) => one.draw !== draw) })
  } finally {
    sent.delete(draw)
  }
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
