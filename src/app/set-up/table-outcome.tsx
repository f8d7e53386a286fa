import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { ImportJson } from '../../contract/index.ts'
import { TableHead } from '../figure/table-head.tsx'
import { Said } from '../look/said.tsx'
import { importWords } from '../strings/import-words.ts'
import styles from './set-up.module.css'

/** What would become of each row of a table, or what became of it. */
export function TableOutcome({
  outcome: { dry_run: isDry, reels, skipped },
  name,
}: {
  readonly outcome: ImportJson
  readonly name: string
}): ReactNode {
  // What is left out is what a person has to look at: it does not hide among hundreds.
  const rows = [
    ...reels.map(({ row, id, what }) => ({ row, id, what })),
    ...skipped.map(({ row, column, message }) => ({
      row,
      id: null,
      what: column === null ? message : importWords.inColumn(column, message),
    })),
  ].toSorted((a, b) => Number(a.id !== null) - Number(b.id !== null) || a.row - b.row)
  return (
    <>
      <p role="status" className={styles['said']}>
        {isDry
          ? importWords.counts(reels.length, skipped.length)
          : importWords.reelsTaken(name, reels.length)}
      </p>
      <table className={styles['outcome']} aria-label={importWords.outcome}>
        <TableHead headings={importWords.outcomeHeadings} />
        <tbody>
          {rows.map(({ row, id, what }) => (
            <tr key={row} data-left={id === null ? true : undefined}>
              <th scope="row">{row}</th>
              <td>
                {id === null ? (
                  importWords.leftOut
                ) : isDry ? (
                  importWords.becomesReel
                ) : (
                  <Link href={`/reel/${id}`}>{id}</Link>
                )}
              </td>
              <td>
                <Said>{what}</Said>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}
