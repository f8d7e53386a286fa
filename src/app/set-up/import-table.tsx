import { useQuery, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import type { ImportJson, TableHeadJson, TableRequest } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { Press } from '../field/press.tsx'
import { TickField } from '../field/tick-field.tsx'
import { TypedField } from '../field/typed-field.tsx'
import { TableHead } from '../figure/table-head.tsx'
import { Failure } from '../look/said.tsx'
import { importWords } from '../strings/import-words.ts'
import type { ChosenFile } from './import-sheet.tsx'
import styles from './set-up.module.css'
import { TableOutcome } from './table-outcome.tsx'

/** A person's own table of reels: its columns are named, then it is tried, then taken over. */
export function ImportTable({ file }: { readonly file: ChosenFile }): ReactNode {
  const api = useApi()
  const head = useQuery({
    queryKey: ['import', file.at, file.name],
    queryFn: () => api.tableHead(file.text),
    staleTime: Number.POSITIVE_INFINITY,
    gcTime: 0,
  })
  if (head.error !== null) {
    return (
      <p role="alert" className={styles['refused']}>
        {importWords.notRead(file.name)}: <Failure of={head.error} />
      </p>
    )
  }
  if (head.data === undefined) return <p role="status">{importWords.trying(file.name)}</p>
  return <NamedTable file={file} head={head.data} />
}

const choices = Object.entries<string>(importWords.is)

/** The keys of the columns as a request has them; the key that was given twice, where one was. */
const columnsOf = (
  keys: readonly string[],
): { readonly columns: Record<string, number>; readonly twice: string | null } => {
  const columns: Record<string, number> = {}
  let twice: string | null = null
  for (const [place, key] of keys.entries()) {
    if (key === '') continue
    if (key in columns) twice = key
    columns[key] = place
  }
  return { columns, twice }
}

function NamedTable({
  file: { name, text },
  head: { columns: found, rows },
}: {
  readonly file: ChosenFile
  readonly head: TableHeadJson
}): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const scales = useQuery({ queryKey: ['rows', 'scale'], queryFn: () => api.rows('scale') })
  const [keys, setKeys] = useState<readonly string[]>(() => found.map(({ key }) => key ?? ''))
  const [scale, setScale] = useState('')
  const [currency, setCurrency] = useState('')
  const [unused, setUnused] = useState(false)
  const [alike, setAlike] = useState(false)
  const inUse = (scales.data?.rows ?? []).flatMap((row) =>
    row.kind === 'scale' && row.retired !== true ? [[row.id, row.name] as const] : [],
  )
  const [first] = inUse
  const { columns, twice } = columnsOf(keys)
  const weighs = 'gross' in columns || 'gross_when_new' in columns
  const chosen = scale === '' && inUse.length === 1 ? (first?.[0] ?? '') : scale
  const asked: TableRequest = {
    csv: text,
    columns,
    ...(weighs && chosen !== '' && { scale: chosen }),
    ...('price' in columns && currency.trim() !== '' && { currency: currency.trim() }),
    ...(unused && { unused }),
    ...(alike && { alike }),
  }
  const trying = useSending({
    mutationFn: () => api.importTable({ ...asked, dry_run: true }),
    onSuccess: () => taking.reset(),
  })
  const taking = useSending({
    mutationFn: () => api.importTable({ ...asked, skip_bad: true }),
    onSuccess: () =>
      queries.invalidateQueries({ predicate: ({ queryKey }) => queryKey[0] !== 'import' }),
  })
  /** What was shown does not hold of what is asked now. */
  const changed = (): void => {
    trying.reset()
    taking.reset()
  }
  const error = trying.error ?? taking.error
  const taken: ImportJson | undefined = taking.data
  return (
    <section aria-label={name} className={styles['table']}>
      <p role="status">{importWords.tableOf(name, rows)}</p>
      <p>{importWords.columnsLead}</p>
      <table className={styles['columns']}>
        <TableHead headings={importWords.columns} />
        <tbody>
          {found.map(({ heading, cells }, place) => {
            const shown = heading.trim() === '' ? importWords.unnamed(place + 1) : heading.trim()
            return (
              // oxlint-disable-next-line react/no-array-index-key -- columns stay, headings may be alike
              <tr key={place}>
                <th scope="row">{shown}</th>
                <td>{cells.filter((cell) => cell.trim() !== '').join(' · ')}</td>
                <td>
                  <ChoiceField
                    label={importWords.columnIs(shown)}
                    hidesLabel
                    words={choices}
                    value={keys[place] ?? ''}
                    onChange={(key) => {
                      setKeys(keys.with(place, key))
                      changed()
                    }}
                  />
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
      {weighs && inUse.length > 1 ? (
        <ChoiceField
          label={importWords.scale}
          words={[['', importWords.noScale], ...inUse]}
          value={scale}
          onChange={(next) => {
            setScale(next)
            changed()
          }}
        />
      ) : null}
      {weighs && scales.data !== undefined && inUse.length === 0 ? (
        <p role="alert" className={styles['refused']}>
          {importWords.scaleMissing}
        </p>
      ) : null}
      {'price' in columns ? (
        <TypedField
          label={importWords.currency}
          hint={importWords.currencyHint}
          text={currency}
          onText={(next) => {
            setCurrency(next)
            changed()
          }}
        />
      ) : null}
      <TickField
        label={importWords.unused}
        isSo={unused}
        onChange={(next) => {
          setUnused(next)
          changed()
        }}
      />
      <TickField
        label={importWords.alike}
        isSo={alike}
        onChange={(next) => {
          setAlike(next)
          changed()
        }}
      />
      {twice === null ? null : (
        <p role="alert" className={styles['refused']}>
          {importWords.twice(choices.find(([key]) => key === twice)?.[1] ?? twice)}
        </p>
      )}
      <p className={styles['presses']}>
        <Press
          main={trying.data === undefined}
          isDisabled={twice !== null || trying.isPending}
          onPress={() => trying.mutate()}
        >
          {importWords.tryIt}
        </Press>
      </p>
      {error === null ? null : (
        <p role="alert" className={styles['refused']}>
          {importWords.notRead(name)}: <Failure of={error} />
        </p>
      )}
      {taken !== undefined ? (
        <TableOutcome outcome={taken} name={name} />
      ) : trying.data === undefined ? null : (
        <>
          <TableOutcome outcome={trying.data} name={name} />
          {trying.data.reels.length === 0 ? null : (
            <p className={styles['presses']}>
              <Press main isDisabled={taking.isPending} onPress={() => taking.mutate()}>
                {importWords.take(trying.data.reels.length)}
              </Press>
            </p>
          )}
        </>
      )}
    </section>
  )
}
