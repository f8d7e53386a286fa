import type { ReactNode } from 'react'
import type { CheckJson } from '../../contract/index.ts'
import { TableHead } from '../figure/table-head.tsx'
import { useNarrow } from '../look/use-narrow.ts'
import { checkWords } from '../strings/check-words.ts'
import { showHeight, showLength } from '../strings/show-figure.ts'
import { timeWords } from '../strings/time-words.ts'
import styles from './check.module.css'
import type { StartAtHand } from './use-start.ts'

/** To the centimetre, as exactly as is of use at a printer. */
const showFed = (fed_mm: number): string =>
  showLength({ value: Math.round(fed_mm / 10) * 10, u: 0 })

/** Where along the print its reel ends and changes are safe: what its drawing shows, as a table. */
export function AlongTable({
  check: { run_dry: dry, change_before: change, time },
  isPlanned,
  at: { start, now },
}: {
  readonly check: CheckJson
  /** False while its times are still those of another printer. */
  readonly isPlanned: boolean
  readonly at: StartAtHand
}): ReactNode {
  const { early_s = null, likely_s = null, late_s = null } = dry.clock ?? {}
  const isTimed = isPlanned && time !== null && start !== null
  const rows = [
    { name: checkWords.along.early, point: dry.early, at_s: early_s, clock: dry.clock },
    { name: checkWords.along.likely, point: dry.likely, at_s: likely_s, clock: dry.clock },
    { name: checkWords.along.late, point: dry.late, at_s: late_s, clock: dry.clock },
    {
      name: checkWords.along.change,
      point: change,
      at_s: change?.clock?.likely_s ?? null,
      clock: change?.clock ?? null,
    },
  ]
  const all = isTimed ? checkWords.alongHeadings : checkWords.alongHeadings.slice(0, -1)
  // Beside its name nothing else has room on a phone.
  const narrow = useNarrow()
  const headings = narrow ? all.slice(1) : all
  const cells = ({ point, at_s, clock }: (typeof rows)[number]): ReactNode =>
    point === null ? (
      <td colSpan={all.length - 1}>{checkWords.alongNone}</td>
    ) : (
      <>
        <td>{point.layer ?? ''}</td>
        <td>{point.height_mm === null ? '' : showHeight(point.height_mm)}</td>
        <td>{showFed(point.draw_mm)}</td>
        {isTimed ? (
          <td>{at_s === null || clock === null ? '' : timeWords.about(at_s, clock, start, now)}</td>
        ) : null}
      </>
    )
  return (
    <table className={styles['along']}>
      <TableHead headings={headings} />
      {narrow ? (
        rows.map((row) => (
          <tbody key={row.name}>
            <tr>
              <th scope="rowgroup" colSpan={headings.length}>
                {row.name}
              </th>
            </tr>
            <tr>{cells(row)}</tr>
          </tbody>
        ))
      ) : (
        <tbody>
          {rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">{row.name}</th>
              {cells(row)}
            </tr>
          ))}
        </tbody>
      )}
    </table>
  )
}
