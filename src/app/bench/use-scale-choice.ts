import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useApi } from '../api/use-api.ts'
import type { ScaleUnit } from '../field/mass-in-unit.ts'
import { useChoices } from '../look/choices.tsx'
import { keep, kept } from '../look/kept.ts'

/** Which scale stands on this bench, and what it shows. */
export interface ScaleChoice {
  /** False until the scales were fetched. */
  readonly isKnown: boolean
  /** Those in use. */
  readonly scales: readonly { readonly id: string; readonly name: string }[]
  /** Id of the one in force; null leaves it to the ledger. */
  readonly scale: string | null
  readonly setScale: (id: string) => void
  readonly unit: ScaleUnit
  readonly setUnit: (unit: ScaleUnit) => void
}

const unitOf = (name: string | null): ScaleUnit | null =>
  name === 'g' || name === 'oz' || name === 'lb' ? name : null

/** The choices of this browser, kept. */
export function useScaleChoice(): ScaleChoice {
  const api = useApi()
  const choices = useChoices()
  const { data } = useQuery({ queryKey: ['rows', 'scale'], queryFn: () => api.rows('scale') })
  const [chosen, setChosen] = useState(() => kept('bench-scale'))
  const [own, setOwn] = useState(() => unitOf(kept('bench-unit')))
  const scales = (data?.rows ?? []).flatMap((row) =>
    row.kind === 'scale' && row.retired !== true ? [{ id: row.id, name: row.name }] : [],
  )
  const scale =
    scales.length < 2 ? null : ((scales.find(({ id }) => id === chosen) ?? scales[0])?.id ?? null)
  return {
    isKnown: data !== undefined,
    scales,
    scale,
    setScale: (id) => {
      keep('bench-scale', id)
      setChosen(id)
    },
    unit: own ?? choices.unit,
    setUnit: (unit) => {
      keep('bench-unit', unit)
      setOwn(unit)
    },
  }
}
