import { type ReactNode, useId } from 'react'
import { spreadLabels } from '../../picture/index.ts'
import { drawingWords } from '../strings/drawing-words.ts'
import { type Figure, type MassUnit, partsOf, showMass } from '../strings/show-figure.ts'
import type { ReelDrawn } from './carrier-size.ts'
import styles from './drawing.module.css'
import { edgeBand } from './winding-edge.ts'

const left = 8
const labels = 128
const margin = 10
/** What stands beside a small carrier needs as much. */
const leastHeight = 150

/** A reel cut along its axis, to scale: the winding now, and as a dashed line after the print. */
export function ReelSection({
  net_g,
  nowWord = drawingWords.now,
  after_g = null,
  colour,
  drawn: { carrier, density_g_per_cm3: density },
  unit = 'g',
  px_per_mm: scale,
}: {
  readonly net_g: Figure
  /** What stands at its figure. */
  readonly nowWord?: string
  /** What stays on it; drawn at the hub where that is below 0. */
  readonly after_g?: Figure | null
  /** Of the filament, `#rrggbb`; null where it is not known. */
  readonly colour: string | null
  readonly drawn: ReelDrawn
  readonly unit?: MassUnit
  /** One for all that stand together. */
  readonly px_per_mm: number
}): ReactNode {
  const id = useId()
  const height = Math.max(carrier.flange_mm * scale + 2 * margin, leastHeight)
  const middle = height / 2
  const wall = Math.max(carrier.wall_mm * scale, 3)
  const inner = carrier.width_mm * scale
  const [from, to] = [left + wall, left + wall + inner]
  const [hub, bore] = [(carrier.hub_mm / 2) * scale, (carrier.bore_mm / 2) * scale]
  const half = (diameter_mm: number): number => (diameter_mm / 2) * scale
  const now = edgeBand(net_g, carrier, density)
  const then = after_g === null ? null : edgeBand(after_g, carrier, density)
  const width = to + wall + labels

  const notes = [
    { r: half(now.likely), word: nowWord, figure: net_g },
    ...(then === null || after_g === null
      ? []
      : [{ r: half(then.likely), word: drawingWords.after, figure: after_g }]),
  ]
  const places = spreadLabels(
    notes.map(({ r }) => middle - r),
    40,
    margin + 14,
    middle - 6,
  )
  /** Winding above and below the axis. */
  const halves = [-1, 1] as const
  return (
    <svg width={width} height={height} role="img" aria-labelledby={id} className={styles['reel']}>
      <title id={id}>
        {drawingWords.section(showMass(net_g, unit), after_g && showMass(after_g, unit))}
      </title>
      <defs>
        <pattern id={`${id}-hatch`} width="6" height="6" patternUnits="userSpaceOnUse">
          <path d="M0 7L7 0M-1 2L2 -1" className={styles['hatchBeside']} />
          <path d="M-1 7L7 -1" className={styles['hatch']} />
        </pattern>
      </defs>
      {halves.map((side) => {
        const box = (a: number, b: number): { y: number; height: number } => ({
          y: Math.min(middle + side * a, middle + side * b),
          height: Math.abs(b - a),
        })
        return (
          <g key={side}>
            <rect
              x={from}
              width={inner}
              {...box(hub, half(now.likely))}
              fill={colour ?? 'none'}
              className={styles['filament']}
            />
            <rect
              x={from}
              width={inner}
              {...box(hub, half(now.likely))}
              fill={`url(#${id}-hatch)`}
            />
            <rect
              x={from}
              width={inner}
              {...box(half(now.inner), half(now.likely))}
              className={styles['bandOn']}
            />
            <rect
              x={from}
              width={inner}
              {...box(half(now.likely), half(now.outer))}
              className={styles['band']}
            />
            <path
              d={`M${from} ${middle + side * half(now.likely)}H${to}`}
              className={styles['outline']}
            />
            {then === null ? null : (
              <>
                <rect
                  x={from}
                  width={inner}
                  {...box(half(then.inner), half(then.outer))}
                  className={styles['bandOn']}
                />
                <path
                  d={`M${from} ${middle + side * half(then.likely)}H${to}`}
                  className={styles['under']}
                />
                <path
                  d={`M${from} ${middle + side * half(then.likely)}H${to}`}
                  className={styles['dashed']}
                />
              </>
            )}
            <rect x={from} width={inner} {...box(bore, hub)} className={styles['body']} />
            <rect
              x={left}
              width={wall}
              {...box(bore, half(carrier.flange_mm))}
              className={styles['body']}
            />
            <rect
              x={to}
              width={wall}
              {...box(bore, half(carrier.flange_mm))}
              className={styles['body']}
            />
          </g>
        )
      })}
      <path
        d={`M${left} ${middle - bore}v${2 * bore}M${to + wall} ${middle - bore}v${2 * bore}`}
        className={styles['hair']}
      />
      <path d={`M${left - 8} ${middle}H${to + wall + 8}`} className={styles['axis']} />
      {notes.map(({ r, word, figure }, k) => {
        const [value, rest] = partsOf(showMass(figure, unit))
        const at = places[k] ?? 0
        return (
          <g key={word}>
            <circle cx={to - 5} cy={middle - r} r={2.5} fill="var(--ink)" />
            <path
              d={`M${to - 5} ${middle - r}L${to + wall + 14} ${at}h6`}
              className={styles['hair']}
            />
            <text x={to + wall + 24} y={at - 4} className={styles['soft']}>
              {word}
            </text>
            <text x={to + wall + 24} y={at + 13} className={styles['figure']}>
              {value}
              <tspan className={styles['soft']}>{rest}</tspan>
            </text>
          </g>
        )
      })}
    </svg>
  )
}
