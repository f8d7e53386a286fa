import { useMemo, useSyncExternalStore } from 'react'
import type { ClockJson } from '../../contract/index.ts'
import type { PrintReading, Silhouette } from '../../print/index.ts'
import { isKept, keep, kept } from '../look/kept.ts'
import { ledgerShown } from '../offline/ledger-shown.ts'

/** A reel that feeds a print, or fed it until another one took over. */
export interface ReelRunning {
  readonly tool: number
  readonly reel: string
  /** It took over once this layer was done; from the start unless given. */
  readonly after_layer?: number
  /** It ran dry before another one took over. */
  readonly ran_dry?: true
}

/** What is kept of a print that was started, until a person says what became of it. */
export interface RunningPrint {
  /** Id of the fact that it ends as: posted twice it is counted once. */
  readonly draw: string
  /** As `keepPrint` names it. */
  readonly print: string
  /** Name of the file. */
  readonly file: string
  readonly started_at: string
  /** As they fed it; of a tool whose reel was changed one after the other. */
  readonly reels: readonly ReelRunning[]
  /** Id of the printer. */
  readonly printer: string
  /** Id of the ledger whose reels these are. */
  readonly ledger: string
  readonly firmware?: string
  /** How long it takes, as it was told when it was started. */
  readonly takes?: ClockJson
  /** One entry a layer. */
  readonly layers: {
    readonly spiral: boolean
    readonly height_mm: readonly number[]
    /** Share of the draw at its end. */
    readonly share: readonly number[]
  }
  readonly picture: KeptPicture | null
}

/** A silhouette, its cells as text. */
export interface KeptPicture extends Omit<Silhouette, 'bits'> {
  readonly bits: string
}

const name = 'running'
const listeners = new Set<() => void>()

const isRunning = (one: unknown): one is RunningPrint =>
  typeof one === 'object' &&
  one !== null &&
  'draw' in one &&
  'print' in one &&
  'reels' in one &&
  'layers' in one

const parse = (text: string): readonly RunningPrint[] => {
  try {
    const list: unknown = JSON.parse(text)
    return Array.isArray(list) ? list.filter(isRunning) : []
  } catch {
    return []
  }
}

const nothing = '[]'
/** As last read: the same list while the same is kept. */
let last: { readonly text: string; readonly list: readonly RunningPrint[] } = {
  text: nothing,
  list: [],
}

/** All that are kept, of every ledger; read anew each time, as another page of this browser may change it. */
export const current = (): readonly RunningPrint[] => {
  const text = kept(name) ?? nothing
  if (text !== last.text) last = { text, list: parse(text) }
  return last.list
}

const change = (next: readonly RunningPrint[]): void => {
  keep(name, JSON.stringify(next))
  for (const listener of listeners) listener()
}

/** Keeps that a print is running. It is no fact of the ledger: this browser alone knows it. */
export const startPrint = (one: Omit<RunningPrint, 'ledger'>): void =>
  change([...current(), { ...one, ledger: ledgerShown() }])

/**
 * Another reel took over in a print that runs.
 *
 * @param isDry - the one before it ran dry
 */
export const changeReel = (
  draw: string,
  to: ReelRunning & { readonly after_layer: number },
  isDry = false,
): void =>
  change(
    current().map((one) => {
      if (one.draw !== draw) return one
      const before = reelsNow(one).find(({ tool }) => tool === to.tool)
      const reels = one.reels.map((each) =>
        isDry && each === before ? Object.assign({}, each, { ran_dry: true as const }) : each,
      )
      return Object.assign({}, one, { reels: [...reels, to] })
    }),
  )

/** The reel that each tool of a print feeds from now. */
export const reelsNow = ({ reels }: Pick<RunningPrint, 'reels'>): readonly ReelRunning[] =>
  reels.filter(({ tool }, place) => !reels.slice(place + 1).some((later) => later.tool === tool))

/** Whether the prints that run outlive the page: a browser may refuse to keep them. */
export const isRunningKept = (): boolean => isKept(name)

/** A print that was written down, or never ran. */
export const endPrint = (draw: string): void => change(current().filter((one) => one.draw !== draw))

/** Forgets the prints of a ledger that is gone. */
export const endPrintsOf = (ledger: string): void =>
  change(current().filter((one) => one.ledger !== ledger))

const follow = (changed: () => void): (() => void) => {
  listeners.add(changed)
  // Another page of this browser.
  addEventListener('storage', changed)
  return () => {
    listeners.delete(changed)
    removeEventListener('storage', changed)
  }
}

/** The prints that are running with reels of the ledger that is shown, oldest first. */
export function useRunning(): readonly RunningPrint[] {
  const all = useSyncExternalStore(follow, current)
  const ledger = ledgerShown()
  return useMemo(() => all.filter((one) => one.ledger === ledger), [all, ledger])
}

/** Ids of the reels that prints are running on. */
export const reelsOfPrints = (running: readonly RunningPrint[]): ReadonlySet<string> =>
  new Set(running.flatMap(({ reels }) => reels.map(({ reel }) => reel)))

const hundredths = (value: number): number => Math.round(value * 100) / 100

/** What is kept of a reading. @param tools - whose draw counts for the share of a layer */
export const keptOfReading = (
  { layers, families, silhouette }: PrintReading,
  tools: readonly number[],
): Pick<RunningPrint, 'layers' | 'picture'> => {
  const fed = (families[0]?.tools ?? []).filter(({ tool }) => tools.includes(tool))
  const whole = fed.reduce((sum, { peak_mm }) => sum + peak_mm, 0)
  const heights = Array.from(layers.height_mm)
  return {
    layers: {
      spiral: layers.spiral,
      height_mm: heights.map(hundredths),
      share: heights.map((_, layer) => {
        const drawn = fed.reduce((sum, { layerEnd_mm }) => sum + (layerEnd_mm[layer] ?? 0), 0)
        return Math.round((1e5 * drawn) / Math.max(whole, 1e-9)) / 1e5
      }),
    },
    picture:
      silhouette === null
        ? null
        : {
            ...silhouette,
            bits: btoa(Array.from(silhouette.bits, (bits) => String.fromCharCode(bits)).join('')),
          },
  }
}

/** The silhouette that was kept. */
export const pictureOf = (picture: KeptPicture): Silhouette => ({
  ...picture,
  bits: Uint8Array.from(atob(picture.bits), (char) => char.charCodeAt(0)),
})
