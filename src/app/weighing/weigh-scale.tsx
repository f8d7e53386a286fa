import { type ReactNode, useId } from 'react'
import { axisTicks } from '../../picture/index.ts'
import styles from '../drawing/drawing.module.css'
import { useWidth } from '../drawing/use-width.ts'
import { type Figure, gramsAt, type MassUnit, markOf, showMass } from '../strings/show-figure.ts'
import { weighingWords } from '../strings/weighing-words.ts'

const side = 12
/** A weighing within so many standard deviations agrees. */
const agrees = 3

/**
 * The stretch of a scale about what is expected: where a reading agrees as a hatched band, the likely
 * part of it darker, and the reading as a tick that lands on it, or beside it.
 */
export function WeighScale({
  expected_g,
  reading_g,
  unit,
}: {
  readonly expected_g: Figure
  readonly reading_g: number | null
  readonly unit: MassUnit
}): ReactNode {
  const [ref, width] = useWidth<HTMLElement>(340)
  const id = useId()
  const { value, u } = expected_g
  const shown = reading_g ?? value
  const reach = Math.max(6 * u, 1.25 * Math.abs(shown - value), 1)
  const [low, high] = [Math.max(value - reach, 0), value + reach]
  const room = width - 2 * side
  const x = (mass_g: number): number =>
    side + ((Math.min(Math.max(mass_g, low), high) - low) / (high - low)) * room
  const { step } = axisTicks(markOf(high - low, unit), Math.max(2, Math.floor(room / 80)))
  const first = Math.ceil(markOf(low, unit) / step)
  const last = Math.floor(markOf(high, unit) / step)
  const marks = Array.from({ length: last - first + 1 }, (_, k) =>
    Number(((first + k) * step).toPrecision(12)),
  )
  const band = (times: number): { x: number; width: number } => ({
    x: x(value - times * u),
    width: Math.max(x(value + times * u) - x(value - times * u), 2),
  })
  const anchor = (at: number): 'start' | 'middle' | 'end' =>
    at > width - 90 ? 'end' : at < 90 ? 'start' : 'middle'
  return (
    <figure ref={ref} className={styles['drawing']}>
      <svg width={width} height={108} role="img" aria-labelledby={id}>
        <title id={id}>
          {reading_g === null
            ? weighingWords.expected(showMass(expected_g, unit))
            : weighingWords.drawing(
                weighingWords.plain(reading_g, unit),
                showMass(expected_g, unit),
              )}
        </title>
        <defs>
          <pattern id={`${id}-hatch`} width="6" height="6" patternUnits="userSpaceOnUse">
            <path d="M-1 7L7 -1" className={styles['hatch']} />
          </pattern>
        </defs>
        <text x={x(value)} y={13} textAnchor={anchor(x(value))} className={styles['soft']}>
          {weighingWords.expected(showMass(expected_g, unit))}
        </text>
        <rect {...band(agrees)} y={20} height={36} fill={`url(#${id}-hatch)`} />
        <rect {...band(1)} y={20} height={36} className={styles['band']} />
        <path d={`M${x(value)} 18V58`} className={styles['dashed']} />
        <path d={`M${side} 56H${width - side}`} className={styles['outline']} />
        {marks.map((mark) => (
          <g key={mark}>
            <path d={`M${x(gramsAt(mark, unit))} 52v8`} className={styles['tick']} />
            {reading_g !== null && Math.abs(x(gramsAt(mark, unit)) - x(reading_g)) < 28 ? null : (
              <text
                x={x(gramsAt(mark, unit))}
                y={73}
                textAnchor="middle"
                className={styles['soft']}
              >
                {mark}
                {mark === marks.at(-1) ? ` ${unit}` : ''}
              </text>
            )}
          </g>
        ))}
        {reading_g === null ? null : (
          <>
            <path d={`M${x(reading_g)} 24V84`} className={styles['shown']} />
            <text
              x={x(reading_g)}
              y={100}
              textAnchor={anchor(x(reading_g))}
              className={styles['figure']}
            >
              {weighingWords.plain(reading_g, unit)}
            </text>
          </>
        )}
      </svg>
      {/* A table heeds no width: it is kept from the eye by what stands around it. */}
      <div className="spoken">
        <table>
          <tbody>
            {weighingWords.scaleRows(expected_g, agrees, reading_g, unit).map(([name, figure]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{figure}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </figure>
  )
}
