import { useQueryClient } from '@tanstack/react-query'
import { type ReactNode, useState } from 'react'
import { useSearch } from 'wouter'
import type { PrintToCheck } from '../api/api.ts'
import { useApi } from '../api/use-api.ts'
import { useSending } from '../api/use-sending.ts'
import { printToCheck } from '../check/print-to-check.ts'
import { TakePrint } from '../check/take-print.tsx'
import { usePlannedFor } from '../check/use-planned-for.ts'
import type { ReadingAtHand } from '../check/use-reading.ts'
import { Press } from '../field/press.tsx'
import { usePrinter } from '../running/use-printer.ts'
import { sayFailure } from '../strings/say-failure.ts'
import { slateWords } from '../strings/slate-words.ts'
import styles from './slate.module.css'
import { requestOf, type WantedPrint, wantedOf } from './told-print.ts'
import { WaitingForm } from './waiting-form.tsx'

/** Puts a print on the slate: the one at hand, or one that is dropped or chosen here. */
export function AddPrint({ at }: { readonly at: ReadingAtHand }): ReactNode {
  // The way from Check leads to the form of the print at hand.
  const [isOpen, setOpen] = useState(new URLSearchParams(useSearch()).has('add'))
  const { reading } = at
  usePlannedFor(at, usePrinter(null))
  if (!isOpen) {
    return (
      <p className={styles['presses']}>
        <Press onPress={() => setOpen(true)}>
          {reading.kind === 'read' ? slateWords.addThis(reading.file.name) : slateWords.add}
        </Press>
      </p>
    )
  }
  const print =
    reading.kind === 'read' ? printToCheck(reading, { printer: null, firmware: null }) : null
  return (
    <section className={styles['add']} aria-label={slateWords.add}>
      <h2>{slateWords.add}</h2>
      {print === null ? (
        <>
          {reading.kind === 'read' ? (
            <p role="status">{slateWords.reading}</p>
          ) : (
            <TakePrint at={at} small />
          )}
          <p className={styles['presses']}>
            <Press onPress={() => setOpen(false)}>{slateWords.leave}</Press>
          </p>
        </>
      ) : (
        <Wanted
          key={`${print.sha256} ${print.member}`}
          print={print}
          onDone={() => {
            setOpen(false)
            at.cancel()
          }}
          onLeave={() => setOpen(false)}
        />
      )}
    </section>
  )
}

function Wanted({
  print,
  onDone,
  onLeave,
}: {
  readonly print: PrintToCheck
  readonly onDone: () => void
  readonly onLeave: () => void
}): ReactNode {
  const api = useApi()
  const queries = useQueryClient()
  const { reading } = print
  const tools = (reading.families[0]?.tools ?? []).map(({ tool }) => tool)
  const add = useSending({
    mutationFn: async (wanted: WantedPrint) =>
      api.addWaiting(requestOf(wanted, await api.keepPrint(print), print.diameter_mm)),
    onSuccess: async () => {
      await queries.invalidateQueries()
      onDone()
    },
  })
  return (
    <>
      <p>
        <b className={styles['what']}>{print.member ?? print.name}</b>
      </p>
      <WaitingForm
        first={wantedOf(null, tools)}
        layers={reading.layers.count}
        isBusy={add.isPending}
        failed={add.error === null ? null : sayFailure(add.error)}
        keepWord={slateWords.putOn}
        onKeep={(wanted) => add.mutate(wanted)}
        onLeave={onLeave}
      />
    </>
  )
}
