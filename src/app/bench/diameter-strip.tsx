import { type ReactNode, useId } from 'react'
import { axisTicks } from '../../picture/index.ts'
import { formatMeasured, type Pair } from '../../units/index.ts'
import styles from '../drawing/drawing.module.css'
import { useWidth } from '../drawing/use-width.ts'
import { TableHead } from '../figure/table-head.tsx'
import type { Figure } from '../strings/show-figure.ts'
import { workWords } from '../strings/work-words.ts'
import benchStyles from './bench.module.css'

const side = 14

/** As the calipers show it. */
const showDiameter = (mm: number): string => `${Number(mm.toPrecision(12))} mm`

/** Every diameter as a tick on a stretched scale, the mean as a band among them. */
export function DiameterStrip({
  places,
  mean,
}: {
  /** By their number; null where one can not be read. */
  readonly places: readonly (Pair | null)[]
  readonly mean: Figure
}): ReactNode {
  const [ref, width] = useWidth<HTMLElement>(320)
  const id = useId()
  const told = places.filter((pair) => pair !== null)
  const all = told.flatMap(([one, other]) => [one.value, other.value])
  const reach = Math.max(...all.map((d) => Math.abs(d - mean.value)), 3 * mean.u) * 1.15
  const low = mean.value - reach
  const room = width - 2 * side
  const x = (d: number): number => side + ((d - low) / (2 * reach)) * room
  const { step } = axisTicks(2 * reach, Math.max(2, Math.floor(room / 80)))
  const first = Math.ceil(low / step)
  const count = Math.floor((mean.value + reach) / step) - first + 1
  return (
    <figure ref={ref} className={styles['drawing']}>
      <svg width={width} height={62} role="img" aria-labelledby={id}>
        <title id={id}>{workWords.meanOf(told.length, formatMeasured(mean, 'mm'))}</title>
        <rect
          x={x(mean.value - mean.u)}
          width={x(mean.value + mean.u) - x(mean.value - mean.u)}
          y={6}
          height={32}
          className={styles['band']}
        />
        <path d={`M${x(mean.value)} 4V40`} className={styles['dashed']} />
        {all.map((d, k) => (
          // oxlint-disable-next-line react/no-array-index-key -- diameters may be alike
          <path key={k} d={`M${x(d)} 14V36`} className={styles['shown']} />
        ))}
        <path d={`M${side} 38H${width - side}`} className={styles['outline']} />
        {Array.from({ length: count }, (_, k) => Number(((first + k) * step).toPrecision(12))).map(
          (mark, k) => (
            <g key={mark}>
              <path d={`M${x(mark)} 34v8`} className={styles['tick']} />
              <text x={x(mark)} y={56} textAnchor="middle" className={styles['soft']}>
                {mark}
                {k === count - 1 ? ' mm' : ''}
              </text>
            </g>
          ),
        )}
      </svg>
      <details>
        <summary>{workWords.strip}</summary>
        <table className={benchStyles['strip']}>
          <TableHead headings={workWords.stripHeadings} />
          <tbody>
            {places.map((pair, k) =>
              pair === null ? null : (
                // oxlint-disable-next-line react/no-array-index-key -- a place is known by its number
                <tr key={k}>
                  <th scope="row">{workWords.place(k + 1)}</th>
                  <td>{showDiameter(pair[0].value)}</td>
                  <td>{showDiameter(pair[1].value)}</td>
                </tr>
              ),
            )}
            <tr>
              <th scope="row">{workWords.stripMean}</th>
              <td colSpan={2}>{formatMeasured(mean, 'mm')}</td>
            </tr>
          </tbody>
        </table>
      </details>
    </figure>
  )
}
