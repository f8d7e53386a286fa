import { type ReactNode, useId } from 'react'
import { axisTicks } from '../../picture/index.ts'
import { drawingWords } from '../strings/drawing-words.ts'
import { type Figure, gramsAt, type MassUnit, markOf, showMass } from '../strings/show-figure.ts'
import styles from './drawing.module.css'
import { useWidth } from './use-width.ts'

const side = 14

/** A scale from 0: what a print needs as a tick, what the reel holds as a mark in its soft band. */
export function ScaleBar({
  needed_g,
  net_g,
  unit = 'g',
}: {
  readonly needed_g: Figure
  readonly net_g: Figure
  readonly unit?: MassUnit
}): ReactNode {
  const [ref, width] = useWidth<HTMLElement>(320)
  const id = useId()
  const end = Math.max(needed_g.value + 3 * needed_g.u, net_g.value + 3 * net_g.u, 1)
  const room = width - 2 * side
  const x = (mass_g: number): number => side + (Math.max(mass_g, 0) / end) * room
  const { at } = axisTicks(markOf(end, unit), Math.max(2, Math.floor(room / 70)))
  /** Beside the mark where it would stand on it. */
  const labelAt = (mass_g: number, words: string): number =>
    x(mass_g) - x(0) < 7 * words.length + 10 ? x(mass_g) + 8 : x(0) + 6
  const holds = `${drawingWords.holds} ${showMass(net_g, unit)}`
  const needs = `${drawingWords.needs} ${showMass(needed_g, unit)}`
  const band = ({ value, u }: Figure): { x: number; width: number } => ({
    x: x(value - 2 * u),
    width: Math.max(x(value + 2 * u) - x(value - 2 * u), 1),
  })
  return (
    <figure ref={ref} className={styles['drawing']}>
      <svg width={width} height={92} role="img" aria-labelledby={id}>
        <title id={id}>
          {drawingWords.scaleBar(showMass(needed_g, unit), showMass(net_g, unit))}
        </title>
        <rect {...band(net_g)} y={14} height={26} className={styles['band']} />
        <rect {...band(needed_g)} y={40} height={26} className={styles['band']} />
        <path d={`M${x(0)} 20V60`} className={styles['hair']} />
        <path d={`M${x(net_g.value)} 14V40`} className={styles['strong']} />
        <path d={`M${x(0)} 27H${x(net_g.value)}`} className={styles['hair']} />
        <path d={`M${x(needed_g.value)} 40V66`} className={styles['strong']} />
        <path d={`M${x(0)} 53H${x(needed_g.value)}`} className={styles['hair']} />
        <text
          x={labelAt(net_g.value, holds)}
          y={21}
          className={`${styles['soft']} ${styles['halo']}`}
        >
          {holds}
        </text>
        <text
          x={labelAt(needed_g.value, needs)}
          y={47}
          className={`${styles['soft']} ${styles['halo']}`}
        >
          {needs}
        </text>
        <path d={`M${x(0)} 66H${width - side}`} className={styles['outline']} />
        {at.map((mark) => (
          <g key={mark}>
            <path d={`M${x(gramsAt(mark, unit))} 62v8`} className={styles['tick']} />
            <text x={x(gramsAt(mark, unit))} y={85} textAnchor="middle" className={styles['soft']}>
              {mark}
              {mark === at.at(-1) ? ` ${unit}` : ''}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  )
}
