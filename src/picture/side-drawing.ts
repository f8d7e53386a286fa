import { type Silhouette, silhouetteOutline } from '../print/index.ts'
import { heightScale, timeScale, timeScaleWidth, widthLine } from './dimension-lines.ts'
import { type Drawing, hatched, type PathShape, type TextShape } from './drawing.ts'
import { placedPath } from './placed-path.ts'
import { silhouetteExtent } from './silhouette-extent.ts'
import { spreadLabels } from './spread-labels.ts'
import type { TimesAlong } from './time-marks.ts'
import { titleHeight, titleShapes, titleWidth } from './title.ts'

/** In which filament a tool draws. */
export interface ToolFill {
  /** Null for the whole print. */
  readonly tool: number | null
  /** `#rrggbb`; null where it is not known. */
  readonly colour: string | null
}

/** A height with a word beside it, mm. */
export interface HeightNote {
  readonly at: number
  readonly text: string
  /** In a line of its own below it. */
  readonly under?: string
  readonly lettering: 'label' | 'changeWord'
}

/** A print from the side, and what is to be shown on it; heights in mm. */
export interface SideAsked {
  readonly silhouette: Silhouette
  readonly fills: readonly ToolFill[]
  /** How high the print is: its grid is coarser; that of the grid unless given. */
  readonly height_mm?: number
  /** How far it is filled; to the top unless given. */
  readonly upTo?: number | null
  /** Where a reel may run dry; up to the top where the upper edge is null. */
  readonly band?: { readonly from: number; readonly to: number | null } | null
  readonly dashedAt?: readonly number[]
  readonly changeAt?: number | null
  readonly notes?: readonly HeightNote[]
  /** When heights are reached; not told unless given. */
  readonly times?: TimesAlong | undefined
  /** Above the drawing; none unless given. */
  readonly title?: string
  /** No wider than it has to be; as wide as asked unless given. */
  readonly snug?: boolean
  /** Room for the notes; enough for a narrow typeface unless given, px. */
  readonly besideNotes?: number
  /** px. */
  readonly width: number
  readonly height: number
  /** The width of the print in words, and the whole drawing. */
  readonly wide: string
  readonly said: string
}

/** Tools of this number and above share a bit. */
const lastBit = 7
const gutter = 48
const usualNotes = 148
const leastOfPrint = 150
const [edgeAbove, below] = [14, 34]

/** A print from the side, to scale, filled as far as its reel goes; no wider or higher than asked. */
export const sideDrawing = (asked: SideAsked): Drawing => {
  const { silhouette, fills, upTo = null, band = null, dashedAt = [], changeAt = null } = asked
  const { notes = [], title, besideNotes = usualNotes, times } = asked
  const beside = notes.length > 0 ? besideNotes : 12
  // On a narrow sheet the print needs the room more; its notes tell times as well.
  const isTimed =
    (times?.heights.length ?? 0) > 1 &&
    asked.width - gutter - beside - timeScaleWidth >= leastOfPrint
  const timed = isTimed ? timeScaleWidth : 0
  const above = edgeAbove + titleHeight(title)
  const extent = silhouetteExtent(silhouette)
  const wide = Math.max(extent.right - extent.left, 0.1)
  const top = Math.max(extent.top, 0.1)
  const room = Math.max(asked.width - gutter - timed - beside, 40)
  const scale = Math.min(room / wide, (asked.height - above - below) / top)
  const bed = above + top * scale
  const edge = gutter + wide * scale
  const y = (height: number): number => bed - Math.min(Math.max(height, 0), top) * scale
  const at = { x: gutter - extent.left * scale, y: bed, scale }
  const outline = (tools?: number): string => placedPath(silhouetteOutline(silhouette, tools), at)
  const d = outline()
  // What is filled to its top has its upper edge drawn in full.
  const filled = { top: upTo === null ? 0 : y(upTo), bottom: bed + below }
  const used = Math.max(edge + timed + (notes.length > 0 ? besideNotes : 20), titleWidth(title))
  const across = (height: number): string => `M${gutter - 6} ${y(height)}H${edge + 6}`
  return {
    width: asked.snug === true ? Math.ceil(Math.min(asked.width, used)) : asked.width,
    height: Math.ceil(bed + below),
    said: asked.said,
    shapes: [
      ...titleShapes(title),
      { kind: 'path', ink: 'rest', d },
      ...fills.map(
        ({ tool, colour }): PathShape => ({
          kind: 'path',
          ink: 'filament',
          d: tool === null ? d : outline(1 << Math.min(tool, lastBit)),
          fill: colour ?? hatched,
          between: filled,
        }),
      ),
      { kind: 'path', ink: 'outline', d, between: filled },
      ...(band === null
        ? []
        : bandShapes(d, { top: y(band.to ?? top), bottom: y(band.from) }, edge)),
      ...dashedAt.map((height) => path('dashed', across(height))),
      ...(changeAt === null ? [] : [path('change', across(changeAt))]),
      ...heightScale(gutter, y, asked.height_mm ?? top),
      path('outline', `M${gutter - 6} ${bed}H${edge + 6}`),
      ...widthLine(gutter, edge, bed, asked.wide),
      ...(times === undefined || !isTimed
        ? []
        : timeScale(
            edge,
            y,
            times,
            notes.map(({ at: told }) => told),
          )),
      ...noteShapes(notes, y, [edge, edge + timed], [above, bed]),
    ],
  }
}

const path = (ink: PathShape['ink'], d: string): PathShape => ({ kind: 'path', ink, d })

const bandShapes = (
  d: string,
  between: NonNullable<PathShape['between']>,
  edge: number,
): readonly PathShape[] => [
  { kind: 'path', ink: 'filament', d, fill: hatched, between },
  {
    kind: 'path',
    ink: 'band',
    d: `M${gutter - 6} ${between.top}H${edge + 6}V${between.bottom}H${gutter - 6}Z`,
  },
]

/** Words beside the print, each with a line to its height, none on another. */
const noteShapes = (
  notes: readonly HeightNote[],
  y: (height: number) => number,
  [edge, beside]: readonly [edge: number, beside: number],
  [above, bed]: readonly [number, number],
): readonly (PathShape | TextShape)[] => {
  const places = spreadLabels(
    notes.map(({ at }) => y(at)),
    notes.some(({ under }) => under !== undefined) ? 18 + underHeight : 18,
    above,
    bed,
  )
  return notes.flatMap(({ at, text, under, lettering }, k) => {
    const place = places[k] ?? 0
    const [x, line] = [beside + 25, place + 4]
    const words = { kind: 'text', x, anchor: 'start' } as const
    return [
      {
        kind: 'path',
        ink: lettering === 'changeWord' ? 'change' : 'hair',
        d: `M${edge + 6} ${y(at)}${beside === edge ? '' : `H${beside + 6}`}L${beside + 16} ${place}H${beside + 22}`,
      },
      { ...words, lettering, y: line, text },
      ...(under === undefined
        ? []
        : [{ ...words, lettering: 'soft' as const, y: line + underHeight, text: under }]),
    ]
  })
}

const underHeight = 15
