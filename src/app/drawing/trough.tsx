import { type ReactNode, useId } from 'react'
import { axisTicks } from '../../picture/index.ts'
import { type Figure, gramsAt, type MassUnit, markOf } from '../strings/show-figure.ts'
import styles from './drawing.module.css'
import { type LaidBar, layBars } from './lay-bars.ts'

/** Room at both sides, px: a figure at the end of the scale is not cut off. */
export const troughSide = 14

const top = 20
const floor = 50
const height = 58

/** Grams to px, alike for all troughs that stand together. */
export interface TroughScale {
  readonly width: number
  /** At the right end, g, > 0. */
  readonly end_g: number
}

const placeIn =
  ({ width, end_g }: TroughScale) =>
  (mass_g: number): number =>
    troughSide + (Math.min(Math.max(mass_g, 0), end_g) / end_g) * (width - 2 * troughSide)

/** The scale above troughs, in grams or ounces. */
export function TroughRule({
  scale,
  unit,
}: {
  readonly scale: TroughScale
  readonly unit: MassUnit
}): ReactNode {
  const x = placeIn(scale)
  const room = scale.width - 2 * troughSide
  const { at } = axisTicks(markOf(scale.end_g, unit), Math.max(2, Math.floor(room / 70)))
  return (
    <svg width={scale.width} height={30} viewBox={`0 0 ${scale.width} 30`} aria-hidden="true">
      <path d={`M${troughSide} 24H${scale.width - troughSide}`} className={styles['outline']} />
      {at.map((mark) => (
        <g key={mark}>
          <path d={`M${x(gramsAt(mark, unit))} 20v8`} className={styles['tick']} />
          <text x={x(gramsAt(mark, unit))} y={13} textAnchor="middle" className={styles['soft']}>
            {mark}
            {mark === at.at(-1) ? ` ${unit}` : ''}
          </text>
        </g>
      ))}
    </svg>
  )
}

/** What one print takes of a reel. */
export interface TroughBar {
  readonly key: string
  /** Stands over the bar, and at the line that says what it is. */
  readonly mark: string
  readonly needed_g: Figure
}

/**
 * A reel as a trough as long as what it holds, the bars of its prints laid in from the left. The end of
 * the last is a soft band as wide as what is left is uncertain, and the tail that can not be printed is hatched.
 */
export function Trough({
  scale,
  holds_g,
  left_g,
  tail_g,
  bars,
  colour,
  chosen = null,
  label,
}: {
  readonly scale: TroughScale
  readonly holds_g: Figure
  /** After all its prints. */
  readonly left_g: Figure
  /** Of that the last, which can not be printed: hatched. */
  readonly tail_g: Figure
  readonly bars: readonly TroughBar[]
  readonly colour: string | null
  /** Key of the bar that is asked about. */
  readonly chosen?: string | null
  /** What is said to those who do not see it. */
  readonly label: string
}): ReactNode {
  const id = useId()
  const x = placeIn(scale)
  const laid = layBars(bars)
  const taken = laid.at(-1)?.to_g ?? 0
  const wall = x(holds_g.value)
  const band = [x(taken - 2 * left_g.u), x(taken + 2 * left_g.u)] as const
  const fill = colour ?? 'var(--margin)'
  return (
    <svg
      width={scale.width}
      height={height}
      viewBox={`0 0 ${scale.width} ${height}`}
      role="img"
      aria-labelledby={id}
    >
      <title id={id}>{label}</title>
      <rect
        x={x(0)}
        y={top}
        width={Math.max(wall - x(0), 0)}
        height={floor - top}
        fill={fill}
        className={styles['filament']}
      />
      <rect
        x={x(taken)}
        y={top}
        width={Math.max(wall - x(taken), 0)}
        height={floor - top}
        className={styles['left']}
      />
      <pattern id={`${id}-hatch`} width="7" height="7" patternUnits="userSpaceOnUse">
        <path d="M0 8L8 0M-1 2L2 -1" className={styles['hatchBeside']} />
        <path d="M-1 8L8 -1" className={styles['hatch']} />
      </pattern>
      <rect
        x={x(holds_g.value - tail_g.value)}
        y={top}
        width={Math.max(wall - x(holds_g.value - tail_g.value), 1)}
        height={floor - top}
        fill={`url(#${id}-hatch)`}
      />
      {laid.map((bar) => (
        <Bar key={bar.key} bar={bar} x={x} isChosen={bar.key === chosen} />
      ))}
      {bars.length === 0 ? null : (
        <rect
          x={band[0]}
          y={top}
          width={Math.max(band[1] - band[0], 1)}
          height={floor - top}
          className={styles['band']}
        />
      )}
      <path d={`M${x(0)} ${top - 6}V${floor}H${wall}V${top - 6}`} className={styles['outline']} />
    </svg>
  )
}

const Bar = ({
  bar: { mark, from_g, to_g },
  x,
  isChosen,
}: {
  readonly bar: LaidBar
  readonly x: (mass_g: number) => number
  readonly isChosen: boolean
}): ReactNode => {
  const [from, to] = [x(from_g), x(to_g)]
  return (
    <>
      <path d={`M${to} ${top}V${floor}`} className={styles['under']} />
      <rect
        x={from}
        y={top}
        width={Math.max(to - from, 1)}
        height={floor - top}
        className={isChosen ? styles['shown'] : styles['outline']}
        fill="none"
      />
      {/* A dimension line with oblique ticks, the mark on it. */}
      <path d={`M${from} ${top - 7}H${to}`} className={styles['hair']} />
      <path
        d={`M${from - 3} ${top - 4}l6 -6M${to - 3} ${top - 4}l6 -6`}
        className={styles['hair']}
      />
      {to - from < 8 * mark.length + 4 ? null : (
        <text
          x={(from + to) / 2}
          y={top - 3}
          textAnchor="middle"
          className={`${styles['label']} ${styles['halo']}`}
        >
          {mark}
        </text>
      )}
    </>
  )
}
