import { basename, extname } from 'node:path'
import { unknownPace } from '../estimate/index.ts'
import {
  type Drawing,
  type HeightNote,
  lettersWide,
  pixelsOf,
  planDrawing,
  planExtent,
  sideDrawing,
  silhouetteExtent,
  svgOf,
} from '../picture/index.ts'
import type { Layers, PrintOfFile, PrintReading, ReadOptions, Silhouette } from '../print/index.ts'
import { heightsReached, weakest } from '../service/index.ts'
import { cancelling } from './cancelling.ts'
import { usageFault } from './fault.ts'
import { nameIn } from './file-name-column.ts'
import type { ReelsJudged } from './judged.ts'
import { sayHeight, upTo } from './say.ts'
import { harmless } from './terminal.ts'
import { momentInBrief, takingInBrief } from './time-sentences.ts'
import { isThere, targetExists, writeWhole } from './write-whole.ts'

/** What was typed of a picture. */
export interface PictureText {
  readonly picture?: string
  readonly layer?: string
  readonly overwrite?: boolean
}

/** A picture that is wanted. */
export interface PictureAsked {
  readonly file: string
  readonly kind: 'svg' | 'png'
  /** 1-based, where it is of one layer. */
  readonly layer?: number
  readonly overwrite: boolean
}

/** px; a PNG has twice as many pixels. */
const size = { width: 720, height: 540 } as const
/** Taken for a bead where the moves tell none, mm. Common practice, no source. */
const usualBead = 0.45

/** The picture from what was typed, if any. @throws Fault of wrong usage, `target_exists` */
export const pictureAsked = async ({
  picture: file,
  layer,
  overwrite = false,
}: PictureText): Promise<PictureAsked | undefined> => {
  if (file === undefined) {
    const option = layer !== undefined ? '--layer' : overwrite ? '--overwrite' : undefined
    if (option === undefined) return undefined
    throw usageFault(
      'needs_a_picture',
      `${option} is about a picture: say where with --picture FILE.`,
      option,
    )
  }
  const kind = extname(file).toLowerCase().slice(1)
  if (kind !== 'svg' && kind !== 'png') {
    throw usageFault(
      'picture_kind_unknown',
      `--picture: "${file}" ends in neither .svg nor .png, which say what kind of picture it is to be.`,
      '--picture',
    )
  }
  if (layer !== undefined && !/^[1-9]\d{0,5}$/.test(layer.trim())) {
    throw usageFault(
      'layer_malformed',
      `--layer: "${layer}" is no layer. The first is 1.`,
      '--layer',
    )
  }
  if (!overwrite && (await isThere(file))) throw targetExists(file)
  return { file, kind, overwrite, ...(layer !== undefined && { layer: Number(layer) }) }
}

/** What the reader is to draw on the way. */
export const drawnOnTheWay = (picture: PictureAsked | undefined): ReadOptions => {
  if (picture === undefined) return {}
  return picture.layer === undefined ? { silhouette: true } : { planOf: picture.layer }
}

/** Writes the picture of a print. @param judged - to show where its reel ends, if it is judged */
export const writePicture = async (
  { file, kind, overwrite, layer }: PictureAsked,
  print: { readonly file: string } & PrintOfFile,
  judged?: ReelsJudged,
): Promise<void> => {
  const title = nameIn({ file: basename(print.file), member: print.name }, 50)
  const drawing =
    layer === undefined
      ? ofSide(print.reading, title, judged)
      : ofLayer(print.reading, title, layer)
  const bytes = kind === 'svg' ? svgOf(drawing) : await asPng(drawing)
  await cancelling((signal) => writeWhole(file, [bytes], overwrite, signal))
}

/** Says where a picture is, below a sheet. */
export const drawnIn = (picture: PictureAsked | undefined): string =>
  picture === undefined ? '' : `\n  Drawn in ${harmless(picture.file)}.\n`

const asPng = async (drawing: Drawing): Promise<Uint8Array> => {
  const { pngOf } = await import('./png-of.ts')
  return pngOf(pixelsOf(drawing))
}

const millimetres = (mm: number): string => `${upTo(mm, 1)} mm`

const ofLayer = (reading: PrintReading, name: string, layer: number): Drawing => {
  const { layers, bead, plan } = reading
  if (plan === undefined || planExtent(plan) === null) {
    throw usageFault(
      'layer_out_of_range',
      layers.count === 0
        ? '--layer: no layers were found in the file.'
        : `--layer: the print has ${layers.count} ${layers.count === 1 ? 'layer' : 'layers'}, and ${layer <= layers.count ? `nothing is laid down in layer ${layer}` : `no layer ${layer}`}.`,
      '--layer',
    )
  }
  const height = sayHeight(layers.height_mm[layer - 1]!)
  const title = `${name} · layer ${layer} of ${layers.count}, ${height}`
  return planDrawing({
    plan,
    bead_mm: bead !== null && bead.width_mm > 0 ? bead.width_mm : usualBead,
    ...size,
    title,
    sayLength: millimetres,
    said: `What is laid down in ${title}, seen from above.`,
  })
}

const ofSide = (reading: PrintReading, title: string, judged: ReelsJudged | undefined): Drawing => {
  const { silhouette } = reading
  if (silhouette === null) {
    throw usageFault(
      'nothing_to_picture',
      '--picture: nothing is laid down in the file, so there is nothing to see.',
      '--picture',
    )
  }
  const extent = silhouetteExtent(silhouette)
  const wide = millimetres(extent.right - extent.left)
  const shown = judged === undefined ? undefined : shownOf(judged, Date.now())
  const notes = shown?.notes ?? []
  const { layers } = reading
  const height_mm = heightOf(layers, silhouette, extent.top)
  const timed = judged?.times ?? (reading.time && { time: reading.time, pace: unknownPace() })
  const times = timed && { ...timed, heights: heightsReached(timed, layers) }
  return sideDrawing({
    silhouette,
    height_mm,
    fills: shown?.fills ?? [{ tool: null, colour: null }],
    ...shown,
    notes,
    times: times ?? undefined,
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
    said: `${title} from the side, ${wide} wide and ${upTo(height_mm, 2)} mm high.${timed ? ` It ${takingInBrief(timed, Date.now())}.` : ''}${notes.map(sayNote).join('')}`,
  })
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
const shownOf = ({ whole, tools, times }: ReelsJudged, now: number): Shown => {
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
