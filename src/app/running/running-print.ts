import type {
  RunningChangeRequest,
  RunningClockJson,
  RunningPrintsJson,
  RunningReelJson,
  RunningToldJson,
} from '../../contract/index.ts'
import type { PrintReading, Silhouette } from '../../print/index.ts'

/** A silhouette, its cells as text. */
export interface KeptPicture extends Omit<Silhouette, 'bits'> {
  readonly bits: string
}

/** A print that was started, until it is said what became of it. */
export interface RunningPrint {
  /** Id of the fact that it ends as: posted twice it is counted once. */
  readonly draw: string
  /** As `keepPrint` names it. */
  readonly print: string
  /** Name of the file. */
  readonly file: string
  /** To the minute. */
  readonly started_at: string
  /** As they fed it; of a tool whose reel was changed one after the other. */
  readonly reels: readonly RunningReelJson[]
  /** Id of the printer. */
  readonly printer: string
  /** Id of the ledger whose reels these are. */
  readonly ledger: string
  readonly firmware?: string
  /** How long it takes, as it was told when it was started. */
  readonly takes?: RunningClockJson
  /** What was told of each tool when it was started. */
  readonly told?: readonly RunningToldJson[]
  /** One entry a layer. */
  readonly layers: {
    readonly spiral: boolean
    readonly height_mm: readonly number[]
    /** Share of the draw at its end; none in a browser that has not read the file. */
    readonly share: readonly number[]
  }
  /** Null in a browser that has not read the file. */
  readonly picture: KeptPicture | null
  /** It was sent: the server may have it, though it did not answer. */
  readonly tried?: true
  /** Why the server did not take that it was started. */
  readonly asks?: string
}

/** Something that changed of a print that runs, and that the server does not have yet. */
export interface ChangeWaiting {
  readonly id: string
  readonly draw: string
  readonly ledger: string
  readonly change: RunningChangeRequest
  /** Why the server did not take it. */
  readonly asks?: string
}

/** What a browser that read the file keeps of a print for its picture. */
export interface PictureOfPrint {
  readonly share: readonly number[]
  readonly picture: KeptPicture | null
}

/** What this browser has of prints that run. */
export interface RunningHere {
  /** That the server does not have yet, of every ledger. */
  readonly starts: readonly RunningPrint[]
  readonly changes: readonly ChangeWaiting[]
  /** By print. */
  readonly pictures: Readonly<Record<string, PictureOfPrint>>
}

/** A print with what the server does not know of it yet. */
export interface RunningShown extends RunningPrint {
  /** True where this browser alone knows of it. */
  readonly waits: boolean
  /** What changed, that the server does not have yet. */
  readonly changes: readonly ChangeWaiting[]
}

/** The reel that each tool of a print feeds from now. */
export const reelsNow = ({ reels }: Pick<RunningPrint, 'reels'>): readonly RunningReelJson[] =>
  reels.filter(({ tool }, place) => !reels.slice(place + 1).some((later) => later.tool === tool))

/** The reels with one that took over from the last of its tool, which ran dry where that is said. */
export const withNext = (
  reels: readonly RunningReelJson[],
  { ran_dry: isDry = false, ...next }: NonNullable<RunningChangeRequest['took_over']>,
): readonly RunningReelJson[] => {
  const tool = next.tool ?? reels[0]?.tool ?? 0
  const before = reelsNow({ reels }).find((one) => one.tool === tool)
  if (before?.reel === next.reel && before.after_layer === next.after_layer) return reels
  return [
    ...reels.map((one) =>
      isDry && one === before ? Object.assign({}, one, { ran_dry: true as const }) : one,
    ),
    { ...next, tool },
  ]
}

/** The reels with those that took over since, as far as that was not refused. */
const reelsAfter = (
  reels: readonly RunningReelJson[],
  changes: readonly ChangeWaiting[],
): readonly RunningReelJson[] =>
  changes.reduce(
    (fed, { change: { took_over: next }, asks }) =>
      next === undefined || asks !== undefined ? fed : withNext(fed, next),
    reels,
  )

/**
 * The prints that run with reels of a ledger, oldest first.
 *
 * @param known - as the server has them
 * @param here - what this browser has beside
 */
export const runningShown = (
  { running: known }: RunningPrintsJson,
  { starts, changes, pictures }: RunningHere,
  ledger: string,
): readonly RunningShown[] => {
  const ids = new Set(known.map(({ row }) => row.id))
  const changesOf = (draw: string): readonly ChangeWaiting[] =>
    changes.filter((one) => one.draw === draw)
  return [
    ...known.map(({ row, file, layers }): RunningShown => {
      const { id, print, started_at, reels, printer, firmware, takes, told } = row
      const waiting = changesOf(id)
      return {
        draw: id,
        print,
        file: file ?? `${print.slice(0, 12)}…`,
        started_at,
        reels: reelsAfter(reels, waiting),
        printer,
        ledger,
        ...(firmware !== undefined && { firmware }),
        ...(takes && { takes }),
        ...(told && { told }),
        layers: {
          spiral: layers?.spiral ?? false,
          height_mm: layers?.height_mm ?? [],
          share: pictures[print]?.share ?? [],
        },
        picture: pictures[print]?.picture ?? null,
        waits: false,
        changes: waiting,
      }
    }),
    ...starts
      .filter((one) => one.ledger === ledger && !ids.has(one.draw))
      .map((one) => {
        const waiting = changesOf(one.draw)
        const reels = reelsAfter(one.reels, waiting)
        return Object.assign({}, one, { reels, waits: true, changes: waiting })
      }),
  ]
    .filter((one) =>
      one.changes.every(({ change, asks }) => change.ended == null || asks !== undefined),
    )
    .toSorted((a, b) => a.started_at.localeCompare(b.started_at))
}

/** Ids of the reels that prints are running on. */
export const reelsOfPrints = (
  running: readonly Pick<RunningPrint, 'reels'>[],
): ReadonlySet<string> => new Set(running.flatMap(({ reels }) => reels.map(({ reel }) => reel)))

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

/** A moment without its seconds: so a start is kept, and times are told from it. */
export const toMinute = (at: number): string =>
  new Date(Math.floor(at / 60_000) * 60_000).toISOString()
