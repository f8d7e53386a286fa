import { basename } from 'node:path'
import { unknownPace } from '../estimate/index.ts'
import {
  type Drawing,
  type HeightNote,
  lettersWide,
  planDrawing,
  planExtent,
  sideDrawing,
  silhouetteExtent,
} from '../picture/index.ts'
import type { Layers, PrintOfFile, PrintReading, ReadOptions, Silhouette } from '../print/index.ts'
import { heightsReached, type PrintTimes, type ReelsChecked, weakest } from '../service/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { nameIn } from './file-name-column.ts'
import { sayCount, sayHeight, upTo } from './say.ts'
import { momentInBrief, takingInBrief } from './time-sentences.ts'

/** px; a PNG has twice as many pixels. */
const size = { width: 720, height: 540 } as const
/** Taken for a bead where the moves tell none, mm. Common practice, no source. */
const usualBead = 0.45

/** What the reader is to draw on the way. @param layer - 1-based, where it is of one layer */
export const drawnOnTheWay = (layer: number | undefined): ReadOptions =>
  layer === undefined ? { silhouette: true } : { planOf: layer }

/** How far reels go. */
type Reach = Pick<ReelsChecked, 'whole' | 'tools' | 'times'>

/** What a drawing is to show of a print. */
export interface DrawingWanted {
  /** From above, 1-based; the print from the side unless given. */
  readonly layer?: number
  /** ms since 1970: moments are told as a person says them then. */
  readonly now: number
  /** Where the reel ends, from the side. */
  readonly judged?: Reach
}

/**
 * The drawing of a print that was read with `drawnOnTheWay`.
 *
 * @returns `layer_out_of_range`, `nothing_to_picture`
 */
export const drawingOf = (
  print: { readonly file: string } & PrintOfFile,
  { layer, now, judged }: DrawingWanted,
): Outcome<Drawing> => {
  const title = nameIn({ file: basename(print.file), member: print.name }, 50)
  return layer === undefined
    ? ofSide(print.reading, title, now, judged)
    : ofLayer(print.reading, title, layer, timesShown(print.reading, judged), now)
}

/** By the printer that is judged for, else by one of which nobody knows how it keeps to the plan. */
const timesShown = ({ time }: PrintReading, judged: Reach | undefined): PrintTimes | undefined =>
  judged?.times ?? (time === null ? undefined : { time, pace: unknownPace() })

const millimetres = (mm: number): string => `${upTo(mm, 1)} mm`

const ofLayer = (
  reading: PrintReading,
  name: string,
  layer: number,
  times: PrintTimes | undefined,
  now: number,
): Outcome<Drawing> => {
  const { layers, bead, plan } = reading
  if (plan === undefined || planExtent(plan) === null) {
    return refuse({
      code: 'layer_out_of_range',
      message:
        layers.count === 0
          ? 'No layers were found in the file.'
          : `The print has ${sayCount(layers.count, 'layer')}, and ${layer <= layers.count ? `nothing is laid down in layer ${layer}` : `no layer ${layer}`}.`,
    })
  }
  const height = sayHeight(layers.height_mm[layer - 1]!)
  const end_s = layers.endTime_s?.[layer - 1]
  const done =
    times === undefined || end_s === undefined ? '' : `, done ${momentInBrief(times, end_s, now)}`
  const title = `${name} · layer ${layer} of ${layers.count}, ${height}${done}`
  return accept(
    planDrawing({
      plan,
      bead_mm: bead !== null && bead.width_mm > 0 ? bead.width_mm : usualBead,
      ...size,
      title,
      sayLength: millimetres,
      said: `What is laid down in ${title}, seen from above.`,
    }),
  )
}

const ofSide = (
  reading: PrintReading,
  title: string,
  now: number,
  judged: Reach | undefined,
): Outcome<Drawing> => {
  const { silhouette } = reading
  if (silhouette === null) {
    return refuse({
      code: 'nothing_to_picture',
      message: 'Nothing is laid down in the file, so there is nothing to see.',
    })
  }
  const extent = silhouetteExtent(silhouette)
  const wide = millimetres(extent.right - extent.left)
  const shown = judged === undefined ? undefined : shownOf(judged, now)
  const notes = shown?.notes ?? []
  const { layers } = reading
  const height_mm = heightOf(layers, silhouette, extent.top)
  const timed = timesShown(reading, judged)
  const times = timed && { ...timed, heights: heightsReached(timed, layers) }
  return accept(
    sideDrawing({
      silhouette,
      height_mm,
      fills: shown?.fills ?? [{ tool: null, colour: null }],
      ...shown,
      notes,
      times,
      besideNotes:
        34 +
        Math.max(
          0,
          ...notes.map(({ text, under = '' }) =>
            Math.max(lettersWide(text, 13), lettersWide(under, 12)),
          ),
        ),
      ...size,
      snug: true,
      title: shown === undefined ? title : `${title} · ${shown.call}`,
      wide,
      said: `${title} from the side, ${wide} wide and ${upTo(height_mm, 2)} mm high.${timed ? ` It ${takingInBrief(timed, now)}.` : ''}${notes.map(sayNote).join('')}`,
    }),
  )
}

/** The highest layer, where the grid of the side view ends with it; else where the grid does, mm. */
const heightOf = (layers: Layers, { row_mm }: Silhouette, top: number): number => {
  const highest = layers.height_mm.reduce((most, each) => Math.max(most, each), 0)
  return Math.abs(highest - top) <= row_mm ? highest : top
}

const sayNote = ({ text, under }: HeightNote): string =>
  ` ${text}${under === undefined ? '' : `, ${under}`}.`

type Shown = Pick<
  Parameters<typeof sideDrawing>[0],
  'fills' | 'upTo' | 'band' | 'dashedAt' | 'changeAt'
> & {
  readonly notes: readonly HeightNote[]
  readonly call: string
}

/** What a verdict shows on the print: how far the reel goes, where it may end, the last safe change. */
const shownOf = ({ whole, tools, times }: Reach, now: number): Shown => {
  const { verdict } = weakest(tools)
  const several = tools.length > 1
  const fills = tools.map(({ tool, onShelf }) => ({
    tool: several ? tool : null,
    colour: onShelf?.card.colour?.srgb ?? null,
  }))
  const call = whole.verdict
  if (verdict.verdict === 'enough') return { fills, notes: [], call }
  const { early, likely, late } = verdict.runDry
  const from = early?.height_mm ?? null
  const dryAt = likely?.height_mm ?? null
  const change = verdict.changeBefore?.height_mm ?? null
  const reached = (planned_s: number | null | undefined): Pick<HeightNote, 'under'> =>
    times === undefined || planned_s == null ? {} : { under: momentInBrief(times, planned_s, now) }
  return {
    fills,
    call,
    ...(from !== null && { band: { from, to: late?.height_mm ?? null } }),
    upTo: dryAt ?? (from === null ? null : (late?.height_mm ?? null)),
    dashedAt: dryAt === null ? [] : [dryAt],
    changeAt: change,
    notes: [
      ...(dryAt !== null
        ? [{ ...label(dryAt, `dry at ${millimetres(dryAt)}`), ...reached(likely?.planned_s) }]
        : from !== null
          ? [{ ...label(from, `from ${millimetres(from)} on`), ...reached(early?.planned_s) }]
          : []),
      ...(change === null
        ? []
        : [
            {
              at: change,
              text: `change by ${millimetres(change)}`,
              lettering: 'changeWord' as const,
              ...reached(verdict.changeBefore?.planned_s),
            },
          ]),
    ],
  }
}

const label = (at: number, text: string): HeightNote => ({ at, text, lettering: 'label' })
