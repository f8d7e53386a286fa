import { useQuery, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import type { RowRequest } from '../../contract/index.ts'
import type { RowKind } from '../api/api.ts'
import { useApi } from '../api/use-api.ts'
import { materialNamesIn } from '../field/material-names.ts'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { Said } from '../look/said.tsx'
import { rowWords } from '../strings/row-words.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { PartFrame } from './part-frame.tsx'
import { RowEntry } from './row-entry.tsx'
import type { RowField } from './row-field.ts'
import { RowForm } from './row-form.tsx'
import { fieldsOf, nameOfRow, type Row, unlessTold } from './row-kinds.ts'
import styles from './set-up.module.css'

const partOf = {
  printer: 'printers',
  make: 'makes',
  material: 'materials',
  scale: 'scales',
  person: 'people',
} as const

/** The rows of a kind, with what was told and what was learnt of each. */
export function RowsSheet({ kind }: { readonly kind: RowKind }): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const { unit } = useChoices()
  const listed = useQuery({ queryKey: ['rows', kind], queryFn: () => api.rows(kind) })
  const learnt = useQuery({ queryKey: ['learnt'], queryFn: () => api.learnt() })
  // Shown together: a press must not move away under a finger.
  const data = learnt.isPending ? undefined : listed.data
  const own = useQuery({
    queryKey: ['rows', 'material'],
    queryFn: () => api.rows('material'),
    enabled: kind === 'make',
  })
  const [open, setOpen] = useState<string | null>(null)
  /** Whose form was left last: there the keys go on. */
  const [from, setFrom] = useState<string | null>(null)
  const [said, setSaid] = useState('')
  const [failed, setFailed] = useState<string | null>(null)
  const fieldsBy = (texts: Readonly<Record<string, string>>): readonly RowField[] =>
    fieldsOf(kind, unit, texts)
  const rows = (data?.rows ?? []) as readonly Row[]
  const one = rowWords.one[kind]

  const leave = (): void => {
    setFrom(open)
    setOpen(null)
  }
  const written = async (name: string): Promise<void> => {
    // The figures first: what is said to be kept is then what is shown.
    await queries.invalidateQueries()
    leave()
    setSaid(rowWords.kept(name))
    setFailed(null)
  }
  const add = async (told: RowRequest): Promise<void> => {
    const { rows: kept } = await api.addRow(kind, unlessTold(kind, told))
    await written(kept[0] === undefined ? '' : nameOfRow(kept[0] as Row))
  }
  const change = async (row: Row, told: RowRequest): Promise<void> => {
    if (Object.keys(told).length === 0) {
      leave()
      setSaid(rowWords.nothingChanged)
      return
    }
    const { rows: kept } = await api.changeRow(kind, row.id, unlessTold(kind, told, { ...row }))
    await written(nameOfRow((kept[0] ?? row) as Row))
  }

  const materialName = materialNamesIn(own.data?.rows ?? [])
  return (
    <PartFrame
      part={partOf[kind]}
      error={listed.error ?? learnt.error ?? own.error}
      lines={data === undefined ? [] : [[setUpWords.parts[partOf[kind]][0], String(rows.length)]]}
    >
      <p role="status" className={styles['said']}>
        {data === undefined ? setUpWords.fetching : said}
      </p>
      {failed === null ? null : (
        <p role="alert" className={styles['refused']}>
          <Said>{failed}</Said>
        </p>
      )}
      {data === undefined ? null : open === 'new' ? (
        <RowForm
          kind={one}
          title={rowWords.adding(one)}
          fieldsBy={fieldsBy}
          before={{}}
          onKeep={add}
          onLeave={leave}
        />
      ) : (
        <p className={styles['presses']}>
          <Press
            main
            autoFocus={from === 'new'}
            onPress={() => {
              setOpen('new')
              setSaid('')
            }}
          >
            {rowWords.add(one)}
          </Press>
        </p>
      )}
      {data !== undefined && rows.length === 0 ? (
        <p className={styles['none']}>{rowWords.none[kind]}</p>
      ) : null}
      <ul className={styles['entries']}>
        {rows.map((row) => (
          <li key={row.id}>
            {open === row.id ? (
              <RowForm
                kind={one}
                title={rowWords.changing(nameOfRow(row))}
                fieldsBy={fieldsBy}
                before={row as unknown as Readonly<Record<string, unknown>>}
                onKeep={(told) => change(row, told)}
                onLeave={leave}
              />
            ) : (
              <RowEntry
                row={row}
                fields={fieldsBy(firmwareAndCorner(row))}
                learnt={learnt.data}
                unit={unit}
                materialName={materialName}
                isLeft={from === row.id}
                onChange={() => {
                  setOpen(row.id)
                  setSaid('')
                }}
                onRetire={(retired) => change(row, { retired })}
                onFailed={setFailed}
              />
            )}
          </li>
        ))}
      </ul>
    </PartFrame>
  )
}

/** What decides which fields a printer has. */
const firmwareAndCorner = (row: Row): Readonly<Record<string, string>> =>
  row.kind === 'printer' ? { firmware: row.firmware ?? '', corner: row.motion?.corner ?? '' } : {}
