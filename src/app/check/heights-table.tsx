import type { ReactNode } from 'react'
import { type TimesAlong, timeMarks } from '../../picture/index.ts'
import { TableHead } from '../figure/table-head.tsx'
import { checkWords } from '../strings/check-words.ts'
import { showHeight } from '../strings/show-figure.ts'
import styles from './check.module.css'

/** As many as are read at a glance. */
const most = 12

/** When heights of the print are reached: the clock beside its drawing, as a table. */
export function HeightsTable({ times }: { readonly times: TimesAlong }): ReactNode {
  const marks = timeMarks(times, most)
  return marks.length === 0 ? null : (
    <table className={styles['along']}>
      <TableHead headings={checkWords.heightsHeadings(times.start !== undefined)} />
      <tbody>
        {marks.map(({ at, text }) => (
          <tr key={`${text} ${at}`}>
            <td>{text}</td>
            <td>{showHeight(at)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
