import { type ReactNode, useId } from 'react'
import { type Silhouette, silhouetteOutline } from '../../print/index.ts'
import { drawingWords } from '../strings/drawing-words.ts'
import { showHeight } from '../strings/show-figure.ts'
import { axisTicks } from './axis-ticks.ts'
import styles from './drawing.module.css'
import { silhouetteExtent } from './silhouette-extent.ts'
import { spreadLabels } from './spread-labels.ts'
import { useWidth } from './use-width.ts'

/** Where in the print a reel ends, heights in mm; null where it lasts past the top. */
export interface RunDryHeights {
  readonly early: number | null
  readonly likely: number | null
  readonly late: number | null
}

/** In which filament a tool draws. */
export interface ToolFill {
  readonly tool: number | null
  /** `#rrggbb`; null where it is not known. */
  readonly colour: string | null
}

/** Tools of this number and above share a bit. */
const lastBit = 7

const gutter = 48
const right = 148
const [above, below] = [14, 34]

/** A print from the side, to scale, filled as far as its reel goes. */
export function PrintSilhouette({
  silhouette,
  fills,
  runDry = null,
  change = null,
  reached = null,
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
  /** Of the drawing, px. */
  readonly height?: number
}): ReactNode {
  const [ref, width] = useWidth<HTMLElement>(420)
  const id = useId()
  const extent = silhouetteExtent(silhouette)
  const wide = Math.max(extent.right - extent.left, 0.1)
  const top = Math.max(extent.top, 0.1)
  const labelled = runDry?.early != null || change !== null || reached !== null
  const room = Math.max(width - gutter - (labelled ? right : 12), 40)
  const scale = Math.min(room / wide, (height - above - below) / top)
  const bed = above + top * scale
  const [drawnWidth, drawnHeight] = [wide * scale, bed + below]
  const y = (height_mm: number): number => bed - Math.min(Math.max(height_mm, 0), top) * scale
  const path = silhouetteOutline(silhouette)
  const place = `translate(${gutter - extent.left * scale} ${bed}) scale(${scale})`
  const early = runDry?.early ?? null
  const upTo = reached ?? runDry?.likely ?? (early === null ? top : (runDry?.late ?? top))
  const ticks = axisTicks(top, Math.max(2, Math.round((top * scale) / 50)))

  // The top is always told; a round mark too near to it is not.
  const marks = [...ticks.at.filter((at) => y(at) - y(top) > 15), top]

  const notes = [
    ...(reached === null
      ? []
      : [{ at: reached, text: drawingWords.reached(showHeight(reached)), kind: 'label' }]),
    ...(runDry?.likely == null
      ? early === null
        ? []
        : [{ at: early, text: drawingWords.dryFrom(showHeight(early)), kind: 'label' }]
      : [
          { at: runDry.likely, text: drawingWords.dryAt(showHeight(runDry.likely)), kind: 'label' },
        ]),
    ...(change === null
      ? []
      : [{ at: change, text: drawingWords.changeBy(showHeight(change)), kind: 'changeWord' }]),
  ]
  const places = spreadLabels(
    notes.map(({ at }) => y(at)),
    18,
    above,
    bed,
  )
  const edge = gutter + drawnWidth
  return (
    <figure ref={ref} className={styles['drawing']}>
      <svg width={width} height={drawnHeight} role="img" aria-labelledby={id}>
        <title id={id}>
          {drawingWords.silhouette(showHeight(wide), showHeight(top), runDry, change, reached)}
        </title>
        <defs>
          <clipPath id={`${id}-fill`}>
            <rect x={0} y={y(upTo)} width={width} height={Math.max(bed - y(upTo), 0) + below} />
          </clipPath>
          <clipPath id={`${id}-shape`}>
            <path d={path} transform={place} />
          </clipPath>
          <pattern id={`${id}-hatch`} width="7" height="7" patternUnits="userSpaceOnUse">
            <path d="M-1 8L8 -1" className={styles['hatch']} />
          </pattern>
        </defs>

        <path
          d={path}
          transform={place}
          vectorEffect="non-scaling-stroke"
          className={styles['rest']}
        />
        <g clipPath={`url(#${id}-fill)`}>
          {fills.map(({ tool, colour }) => (
            <path
              key={tool}
              d={tool === null ? path : silhouetteOutline(silhouette, 1 << Math.min(tool, lastBit))}
              transform={place}
              fill={colour ?? `url(#${id}-hatch)`}
              className={styles['filament']}
            />
          ))}
          <path
            d={path}
            transform={place}
            vectorEffect="non-scaling-stroke"
            className={styles['outline']}
          />
        </g>
        {early === null ? null : (
          <g>
            <rect
              x={gutter}
              y={y(runDry?.late ?? top)}
              width={drawnWidth}
              height={y(early) - y(runDry?.late ?? top)}
              fill={`url(#${id}-hatch)`}
              clipPath={`url(#${id}-shape)`}
            />
            <rect
              x={gutter - 6}
              y={y(runDry?.late ?? top)}
              width={drawnWidth + 12}
              height={y(early) - y(runDry?.late ?? top)}
              className={styles['band']}
            />
          </g>
        )}
        {runDry?.likely == null ? null : (
          <path d={`M${gutter - 6} ${y(runDry.likely)}H${edge + 6}`} className={styles['dashed']} />
        )}
        {reached === null ? null : (
          <path d={`M${gutter - 6} ${y(reached)}H${edge + 6}`} className={styles['dashed']} />
        )}
        {change === null ? null : (
          <path d={`M${gutter - 6} ${y(change)}H${edge + 6}`} className={styles['change']} />
        )}

        <path d={`M${gutter - 14} ${y(top)}V${bed}`} className={styles['hair']} />
        {marks.map((at) => (
          <g key={at}>
            <path d={`M${gutter - 18} ${y(at)}h8`} className={styles['tick']} />
            <text x={gutter - 22} y={y(at) + 4} textAnchor="end" className={styles['soft']}>
              {at === top ? Math.round(at * 10) / 10 : at}
            </text>
          </g>
        ))}
        <path d={`M${gutter - 6} ${bed}H${edge + 6}`} className={styles['outline']} />
        <path
          d={`M${gutter} ${bed + 6}v12M${edge} ${bed + 6}v12M${gutter} ${bed + 13}H${edge}`}
          className={styles['hair']}
        />
        <path
          d={`M${gutter - 4} ${bed + 17}l8 -8M${edge - 4} ${bed + 17}l8 -8`}
          className={styles['tick']}
        />
        <text
          x={gutter + drawnWidth / 2}
          y={bed + 29}
          textAnchor="middle"
          className={styles['soft']}
        >
          {showHeight(wide)}
        </text>
        {notes.map(({ at, text, kind }, k) => (
          <g key={kind}>
            <path
              d={`M${edge + 6} ${y(at)}L${edge + 16} ${places[k] ?? 0}h6`}
              className={kind === 'changeWord' ? styles['change'] : styles['hair']}
            />
            <text
              x={edge + 25}
              y={(places[k] ?? 0) + 4}
              className={`${styles['label']} ${styles[kind]}`}
            >
              {text}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  )
}
