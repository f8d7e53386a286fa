import type { ReactNode } from 'react'
import type { LearntJson } from '../../contract/index.ts'
import { useSending } from '../api/use-sending.ts'
import { Press } from '../field/press.tsx'
import { SaidFigure } from '../figure/said-figure.tsx'
import { TableHead } from '../figure/table-head.tsx'
import { rowWords } from '../strings/row-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { MakeFacts } from './make-facts.tsx'
import type { RowField } from './row-field.ts'
import { learntOf, nameOfRow, type Row, toldOf } from './row-kinds.ts'
import styles from './set-up.module.css'

const canRetire = (row: Row): row is Extract<Row, { readonly kind: 'printer' | 'scale' }> =>
  row.kind === 'printer' || row.kind === 'scale'

/** One row: what was told of it, and beside it what the ledger learnt. */
export function RowEntry({
  row,
  fields,
  learnt,
  unit,
  materialName,
  isLeft,
  onChange,
  onRetire,
  onFailed,
}: {
  readonly row: Row
  readonly fields: readonly RowField[]
  readonly learnt: LearntJson | undefined
  readonly unit: MassUnit
  readonly materialName: (id: string) => string
  /** Its form was left just now: the keys go on here. */
  readonly isLeft: boolean
  readonly onChange: () => void
  readonly onRetire: (retired: true | null) => Promise<void>
  readonly onFailed: (message: string) => void
}): ReactNode {
  const retiring = useSending({
    mutationFn: onRetire,
    onError: (fault) => onFailed(sayFailure(fault)),
  })
  const name = nameOfRow(row)
  const told = toldOf(row, fields, unit, materialName)
  const found = learntOf(row, learnt, unit)
  const isLearnt = row.kind === 'printer' || row.kind === 'make' || row.kind === 'scale'
  const lines = [
    ...told.map((one) => ({ ...one, found: found.find(({ key }) => key === one.key) })),
    ...found
      .filter(({ key }) => told.every((one) => one.key !== key))
      .map((one) => ({ key: one.key, label: one.label, told: '', found: one })),
  ]
  const isRetired = canRetire(row) && row.retired === true
  return (
    <section aria-label={name} className={styles['entry']}>
      <div className={styles['entryHead']}>
        <h2>{name}</h2>
        {isRetired ? <span className={styles['soft']}>{rowWords.retired}</span> : null}
      </div>
      {row.note === undefined ? null : <p className={styles['soft']}>{row.note}</p>}
      {lines.length === 0 ? null : (
        <table className={styles['figures']}>
          <TableHead headings={rowWords.headings.slice(0, isLearnt ? 3 : 2)} />
          <tbody>
            {lines.map((line) => (
              <tr key={line.key}>
                <th scope="row">{line.label}</th>
                <td>{line.told}</td>
                {isLearnt ? (
                  <td>
                    {line.found === undefined ? null : (
                      <>
                        <SaidFigure said={line.found.learnt} />{' '}
                        <span className={styles['soft']}>{rowWords.from(line.found.from)}</span>
                      </>
                    )}
                  </td>
                ) : null}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {isLearnt && found.length === 0 ? (
        <p className={styles['soft']}>
          {rowWords.headings[2]}: {rowWords.nothingLearnt}
        </p>
      ) : null}
      {row.kind === 'make' ? <MakeFacts make={row.id} unit={unit} /> : null}
      <p className={styles['presses']}>
        <Press autoFocus={isLeft} aria-label={rowWords.changeOf(name)} onPress={onChange}>
          {setUpWords.change}
        </Press>
        {canRetire(row) ? (
          <Press
            aria-label={isRetired ? rowWords.useAgainOf(name) : rowWords.retireOf(name)}
            onPress={() => retiring.mutate(isRetired ? null : true)}
          >
            {isRetired ? setUpWords.useAgain : setUpWords.retire}
          </Press>
        ) : null}
      </p>
    </section>
  )
}
