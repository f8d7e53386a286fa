import type { ReactNode } from 'react'
import type { CheckJson } from '../../contract/index.ts'
import { TableHead } from '../figure/table-head.tsx'
import { checkWords } from '../strings/check-words.ts'
import { showHeight, showLength } from '../strings/show-figure.ts'
import { timeWords } from '../strings/time-words.ts'
import type { StartAtHand } from './use-start.ts'

/** As exactly as is of use at a printer, mm. */
const fed_u = 20

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
    { name: checkWords.along.early, point: dry.early, at_s: early_s },
    { name: checkWords.along.likely, point: dry.likely, at_s: likely_s },
    { name: checkWords.along.late, point: dry.late, at_s: late_s },
    { name: checkWords.along.change, point: change, at_s: change?.clock?.likely_s ?? null },
  ]
  const headings = isTimed ? checkWords.alongHeadings : checkWords.alongHeadings.slice(0, -1)
  return (
    <table>
      <TableHead headings={headings} />
      <tbody>
        {rows.map(({ name, point, at_s }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            {point === null ? (
              <td colSpan={headings.length - 1}>{checkWords.alongNone}</td>
            ) : (
              <>
                <td>{point.layer ?? ''}</td>
                <td>{point.height_mm === null ? '' : showHeight(point.height_mm)}</td>
                <td>{showLength({ value: point.draw_mm, u: fed_u })}</td>
                {isTimed ? <td>{at_s === null ? '' : timeWords.about(at_s, start, now)}</td> : null}
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
