import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { createPortal } from 'react-dom'
import { Link } from 'wouter'
import type { RecordedJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { useMaterialNames } from '../field/material-names.ts'
import { Press } from '../field/press.tsx'
import { Said } from '../look/said.tsx'
import { arrivalWords } from '../strings/arrival-words.ts'
import { type MassUnit, showMass } from '../strings/show-figure.ts'
import styles from './bench.module.css'
import { labelsOf } from './labels-of.ts'

/** The ids to write on the reels that arrived, large, and a sheet of labels for the printer. */
export function ReelLabels({
  answer,
  unit,
}: {
  readonly answer: RecordedJson
  readonly unit: MassUnit
}): ReactNode {
  const api = useApi()
  const { data } = useQuery({ queryKey: ['rows', 'make'], queryFn: () => api.rows('make') })
  const labels = labelsOf(answer, data?.rows ?? [], useMaterialNames())
  const netOf = new Map(answer.reels.map(({ reel, now }) => [reel, now?.net_g ?? null]))
  return (
    <>
      <p>{arrivalWords.write(labels.length)}</p>
      <ol className={styles['ids']} aria-label={arrivalWords.ids}>
        {labels.map(({ id }, k) => {
          const net = netOf.get(id)
          return (
            <li key={id}>
              <small>{arrivalWords.nth(k + 1)}</small>
              <Link href={`/reel/${id}`}>{id}</Link>
              <small>{net == null ? '' : showMass(net, unit)}</small>
            </li>
          )
        })}
      </ol>
      {answer.notes.map((note) => (
        <p key={note} className={styles['note']}>
          <Said>{note}</Said>
        </p>
      ))}
      <p className={styles['printing']}>
        <Press main onPress={() => print()}>
          {arrivalWords.print}
        </Press>
      </p>
      {createPortal(
        <div className={styles['labels']} aria-hidden="true">
          {labels.map(({ id, make, material, colour, srgb, lot }) => (
            <div key={id} className={styles['label']}>
              <b>{id}</b>
              <span>{make}</span>
              <span>
                <Swatch colour={srgb} /> {[colour, material].filter(Boolean).join(', ')}
              </span>
              <span>{lot}</span>
            </div>
          ))}
        </div>,
        document.body,
      )}
    </>
  )
}
