import { useMutation, useQuery } from '@tanstack/react-query'
import { type ReactNode, useRef, useState } from 'react'
import type { MatchCopyJson } from '../../contract/index.ts'
import { firmwareFamilies } from '../../print/index.ts'
import { useApi } from '../api/use-api.ts'
import { ChooseFileButton } from '../check/choose-file.tsx'
import { ChoiceField } from '../field/choice-field.tsx'
import { Press } from '../field/press.tsx'
import { Failure } from '../look/said.tsx'
import { hashFile } from '../reading/read-file.ts'
import { planWords } from '../strings/plan-words.ts'
import styles from './slate.module.css'

/** Hands out a copy of a print that waits at its planned changes of reels. */
export function CopyWithStops({ copy }: { readonly copy: MatchCopyJson }): ReactNode {
  const api = useApi()
  const slate = useQuery({ queryKey: ['slate'], queryFn: () => api.slate() })
  const printers = useQuery({ queryKey: ['rows', 'printer'], queryFn: () => api.rows('printer') })
  const row = slate.data?.waiting.find((one) => one.row.id === copy.waiting)?.row
  const printer = printers.data?.rows.find(({ id }) => id === copy.printer)
  const own = printer?.kind === 'printer' ? printer.firmware : undefined
  const [chosen, setChosen] = useState<string>(firmwareFamilies[0]?.id ?? '')
  const firmware = own ?? chosen
  const control = useRef<AbortController | null>(null)
  const making = useMutation({
    mutationFn: async (file: File) => {
      const { signal } = (control.current = new AbortController())
      const [sha256 = '', member = null] = row?.print.split('/') ?? []
      const hash = await hashFile(file, signal)
      if (!hash.ok) throw new Error(hash.refusal.message)
      if (hash.value !== sha256) throw new Error(planWords.wrongFile(copy.name))
      const blob = await api.copyWithStops(
        file,
        {
          afterLayers: copy.changes.map(({ after_layer }) => after_layer),
          firmware,
          note: copy.changes.map(({ from, to }) => `${from} to ${to}`).join(', '),
          member,
        },
        signal,
      )
      download(blob, `${copy.name}-waits.gcode`)
    },
  })
  if (row === undefined) return null
  return (
    <details className={styles['copy']}>
      <summary>{planWords.copyOf}</summary>
      <p>{planWords.copyHow(copy.name)}</p>
      <div className={styles['presses']}>
        {own === undefined ? (
          <ChoiceField
            label={planWords.family}
            words={firmwareFamilies.map(({ id, description }) => [id, `${id}: ${description}`])}
            value={chosen}
            onChange={setChosen}
          />
        ) : null}
        {making.isPending ? (
          <>
            <span role="status">{planWords.copying}</span>
            <Press onPress={() => control.current?.abort(new Error(planWords.copyStopped))}>
              {planWords.stop}
            </Press>
          </>
        ) : (
          <ChooseFileButton onFile={(file) => making.mutate(file)}>
            {planWords.chooseFile}
          </ChooseFileButton>
        )}
      </div>
      {making.error === null ? null : (
        <p role="alert">
          <Failure of={making.error} />
        </p>
      )}
      <p role="status">{making.isSuccess ? planWords.copied : ''}</p>
    </details>
  )
}

const download = (blob: Blob, name: string): void => {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(blob)
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}
