import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { PrinterRowJson } from '../../contract/index.ts'
import type { PrintReading } from '../../print/index.ts'
import { useApi } from '../api/use-api.ts'
import { keep, kept } from '../look/kept.ts'

/** The printer that a print is to be made on, as chosen in this browser. */
export interface PrinterAtHand {
  /** False until the ledger has told its printers. */
  readonly isKnown: boolean
  /** Those in use. */
  readonly printers: readonly PrinterRowJson[]
  /** The one chosen, or the only one, or the first; null where there is none. */
  readonly printer: PrinterRowJson | null
  readonly choose: (id: string) => void
  /** Families that read the file differently, where nobody has said which of them runs the printer. */
  readonly families: readonly string[]
  /** The family chosen of them. */
  readonly firmware: string | null
  readonly chooseFirmware: (family: string) => void
}

/** @param reading - of the print at hand; null where there is none */
export function usePrinter(reading: PrintReading | null): PrinterAtHand {
  const api = useApi()
  const { data, isError } = useQuery({
    queryKey: ['rows', 'printer'],
    queryFn: () => api.rows('printer'),
  })
  const [chosen, setChosen] = useState(() => kept('printer'))
  const printers = (data?.rows ?? []).filter(
    (row): row is PrinterRowJson => row.kind === 'printer' && row.retired !== true,
  )
  const printer = printers.find(({ id }) => id === chosen) ?? printers[0] ?? null
  const key = `firmware-${printer?.id ?? ''}`
  const [families, setFamilies] = useState<Readonly<Record<string, string>>>({})
  const asked =
    printer?.firmware === undefined && (reading?.families.length ?? 0) > 1
      ? (reading?.families ?? []).flatMap(({ families: alike }) => alike)
      : []
  const told = families[key] ?? kept(key) ?? ''
  return {
    isKnown: data !== undefined || isError,
    printers,
    printer,
    choose: (id) => {
      keep('printer', id)
      setChosen(id)
    },
    families: asked,
    firmware: asked.some((family) => family === told) ? told : null,
    chooseFirmware: (family) => {
      keep(key, family)
      setFamilies((now) => ({ ...now, [key]: family }))
    },
  }
}
