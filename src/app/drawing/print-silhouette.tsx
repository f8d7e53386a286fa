import { type ReactNode, useId } from 'react'
import {
  type HeightNote,
  sideDrawing,
  silhouetteExtent,
  type TimesAlong,
  type ToolFill,
} from '../../picture/index.ts'
import type { Silhouette } from '../../print/index.ts'
import { drawingWords } from '../strings/drawing-words.ts'
import { showHeight } from '../strings/show-figure.ts'
import styles from './drawing.module.css'
import { DrawingShapes } from './drawing-shapes.tsx'
import { useWidth } from './use-width.ts'

/** Where in the print a reel ends, heights in mm; null where it lasts past the top. */
export interface RunDryHeights {
  readonly early: number | null
  readonly likely: number | null
  readonly late: number | null
}

/** When heights of the print are reached; by the clock where its start is known. */
export interface SilhouetteTimes extends TimesAlong {
  /** When the reel most likely runs dry, and when the last safe change comes, in words. */
  readonly dry: string | null
  readonly change: string | null
}

/** A print from the side, to scale, filled as far as its reel goes. */
export function PrintSilhouette({
  silhouette,
  fills,
  runDry = null,
  change = null,
  reached = null,
  times = null,
  height = 300,
}: {
  readonly silhouette: Silhouette
  /** The filament of each tool; of the whole print where the tool is null. */
  readonly fills: readonly ToolFill[]
  readonly runDry?: RunDryHeights | null
  /** Height before which changing reels is still safe. */
  readonly change?: number | null
  /** Height at which it ended before its end; it is filled up to there. */
  readonly reached?: number | null
  readonly times?: SilhouetteTimes | null
  /** Of the drawing, px. */
  readonly height?: number
}): ReactNode {
  const [ref, width] = useWidth<HTMLElement>(420)
  const id = useId()
  const extent = silhouetteExtent(silhouette)
  const wide = showHeight(Math.max(extent.right - extent.left, 0.1))
  const early = runDry?.early ?? null
  const likely = runDry?.likely ?? null
  const drawing = sideDrawing({
    silhouette,
    fills,
    upTo: reached ?? likely ?? (early === null ? null : (runDry?.late ?? null)),
    band: early === null ? null : { from: early, to: runDry?.late ?? null },
    dashedAt: [likely, reached].filter((at) => at !== null),
    changeAt: change,
    notes: notesOf(runDry, change, reached, times),
    ...(times !== null && { times }),
    width,
    height,
    wide,
    said: drawingWords.silhouette(
      wide,
      showHeight(Math.max(extent.top, 0.1)),
      runDry,
      change,
      reached,
      times,
    ),
  })
  return (
    <figure ref={ref} className={styles['drawing']}>
      <svg width={width} height={drawing.height} role="img" aria-labelledby={id}>
        <title id={id}>{drawing.said}</title>
        <DrawingShapes drawing={drawing} id={id} />
      </svg>
    </figure>
  )
}

const label = (at: number, text: string, under: string | null = null): HeightNote => ({
  at,
  text,
  lettering: 'label',
  ...(under !== null && { under }),
})

const notesOf = (
  runDry: RunDryHeights | null,
  change: number | null,
  reached: number | null,
  times: SilhouetteTimes | null,
): readonly HeightNote[] => {
  const { early = null, likely = null } = runDry ?? {}
  return [
    ...(reached === null ? [] : [label(reached, drawingWords.reached(showHeight(reached)))]),
    ...(likely !== null
      ? [label(likely, drawingWords.dryAt(showHeight(likely)), times?.dry)]
      : early !== null
        ? [label(early, drawingWords.dryFrom(showHeight(early)))]
        : []),
    ...(change === null
      ? []
      : [
          {
            at: change,
            text: drawingWords.changeBy(showHeight(change)),
            lettering: 'changeWord' as const,
            ...(times?.change != null && { under: times.change }),
          },
        ]),
  ]
}
