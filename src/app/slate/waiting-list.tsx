import { useQuery, useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import type { WaitingTellJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { useMaterialNames } from '../field/material-names.ts'
import { Press } from '../field/press.tsx'
import { Failure, Said } from '../look/said.tsx'
import { sayFailure } from '../strings/say-failure.ts'
import { slateWords } from '../strings/slate-words.ts'
import styles from './slate.module.css'
import { changeOf, type WantedPrint, wantedOf } from './told-print.ts'
import { WaitingForm } from './waiting-form.tsx'

/** The prints that wait, each with its number on this sheet, and what may be done with it. */
export function WaitingList({
  waiting,
}: {
  /** The most urgent first. */
  readonly waiting: readonly WaitingTellJson[]
}): ReactNode {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'printer'], queryFn: () => api.rows('printer') })
  const names = new Map(
    (data?.rows ?? []).flatMap((row) =>
      row.kind === 'printer' ? [[row.id, row.name] as const] : [],
    ),
  )
  const materialName = useMaterialNames()
  const [open, setOpen] = useState<string | null>(null)
  return (
    <ol className={styles['waiting']} aria-label={slateWords.waiting}>
      {waiting.map((one, place) => (
        <WaitingEntry
          key={one.row.id}
          one={one}
          mark={String(place + 1)}
          names={names}
          materialName={materialName}
          isOpen={open === one.row.id}
          onOpen={(isOpen) => setOpen(isOpen ? one.row.id : null)}
        />
      ))}
    </ol>
  )
}

function WaitingEntry({
  one,
  mark,
  names,
  materialName,
  isOpen,
  onOpen,
}: {
  readonly one: WaitingTellJson
  readonly mark: string
  readonly names: ReadonlyMap<string, string>
  readonly materialName: (id: string) => string
  readonly isOpen: boolean
  readonly onOpen: (isOpen: boolean) => void
}): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const { row, layers, tools } = one
  const change = useSending({
    mutationFn: (wanted: WantedPrint) => api.changeWaiting(row.id, changeOf(wanted, row)),
    onSuccess: async () => {
      await queries.invalidateQueries()
      onOpen(false)
    },
  })
  const takeOff = useSending({
    mutationFn: () => api.changeWaiting(row.id, { off: true }),
    onSuccess: () => queries.invalidateQueries(),
  })
  return (
    <li>
      <b className={styles['mark']}>{mark}</b>
      <div>
        <p>
          <b className={styles['what']}>{row.name}</b> {slateWords.copiesOf(one)}
        </p>
        <p className={styles['soft']}>{slateWords.wants(one, names, materialName)}</p>
        {one.row.note === undefined ? null : <p className={styles['soft']}>{one.row.note}</p>}
        {one.cut_short.map((sentence) => (
          <p key={sentence} className={styles['soft']}>
            <Said>{sentence}</Said>
          </p>
        ))}
        {isOpen ? (
          <WaitingForm
            first={wantedOf(
              row,
              tools.map(({ tool }) => tool),
            )}
            layers={layers}
            isBusy={change.isPending}
            failed={change.error === null ? null : sayFailure(change.error)}
            keepWord={slateWords.keep}
            onKeep={(wanted) => change.mutate(wanted)}
            onLeave={() => onOpen(false)}
          />
        ) : null}
        {takeOff.error === null ? null : (
          <p role="alert">
            <Failure of={takeOff.error} />
          </p>
        )}
      </div>
      {isOpen ? null : (
        <p className={styles['presses']}>
          <Press aria-label={slateWords.changeOf(row.name)} onPress={() => onOpen(true)}>
            {slateWords.change}
          </Press>
          <Press
            aria-label={slateWords.takeOffOf(row.name)}
            isDisabled={takeOff.isPending}
            onPress={() => takeOff.mutate()}
          >
            {slateWords.takeOff}
          </Press>
        </p>
      )}
    </li>
  )
}
