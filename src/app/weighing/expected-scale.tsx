import { type ReactNode, useId } from 'react'
import { axisTicks } from '../drawing/axis-ticks.ts'
import styles from '../drawing/drawing.module.css'
import { useWidth } from '../drawing/use-width.ts'
import { type Figure, gramsAt, type MassUnit, markOf, showMass } from '../strings/show-figure.ts'
import { weighingWords } from '../strings/weighing-words.ts'

const side = 14

/** A scale from 0: what was expected as a band on it, and what was shown as a tick. */
export function ExpectedScale({
  expected_g,
  reading_g = null,
  unit = 'g',
}: {
  readonly expected_g: Figure
  /** Null until there is a figure. */
  readonly reading_g?: number | null
  readonly unit?: MassUnit
}): ReactNode {
  const [ref, width] = useWidth<HTMLElement>(320)
  const id = useId()
  const { value, u } = expected_g
  const end = Math.max(1.15 * (value + 3 * u), 1.15 * (reading_g ?? 0), 1)
  const room = width - 2 * side
  const x = (mass_g: number): number => side + (Math.min(Math.max(mass_g, 0), end) / end) * room
  const { at } = axisTicks(markOf(end, unit), Math.max(2, Math.floor(room / 70)))
  const label = (mass_g: number, word: string, y: number): ReactNode => (
    <text
      x={x(mass_g)}
      y={y}
      textAnchor={x(mass_g) > width - 90 ? 'end' : x(mass_g) < 90 ? 'start' : 'middle'}
      className={`${styles['label']} ${styles['halo']}`}
    >
      {word}
    </text>
  )
  return (
    <figure ref={ref} className={styles['drawing']}>
      <svg width={width} height={84} role="img" aria-labelledby={id}>
        <title id={id}>
          {weighingWords.drawing(
            reading_g === null ? '–' : weighingWords.plain(reading_g, unit),
            showMass(expected_g, unit),
          )}
        </title>
        <rect
          x={x(value - 2 * u)}
          width={Math.max(x(value + 2 * u) - x(value - 2 * u), 2)}
          y={30}
          height={28}
          className={styles['band']}
        />
        <path d={`M${x(value)} 30V58`} className={styles['dashed']} />
        {label(value, weighingWords.expected, 26)}
        {reading_g === null ? null : (
          <>
            <path d={`M${x(reading_g)} 14V58`} className={styles['strong']} />
            {label(reading_g, weighingWords.shown, 11)}
          </>
        )}
        <path d={`M${side} 58H${width - side}`} className={styles['outline']} />
        {at.map((mark) => (
          <g key={mark}>
            <path d={`M${x(gramsAt(mark, unit))} 54v8`} className={styles['tick']} />
            <text x={x(gramsAt(mark, unit))} y={77} textAnchor="middle" className={styles['soft']}>
              {mark}
              {mark === at.at(-1) ? ` ${unit}` : ''}
            </text>
          </g>
        ))}
      </svg>
    </figure>
  )
}
