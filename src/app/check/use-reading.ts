import { useCallback, useRef, useState } from 'react'
import type { Refusal } from '../../units/index.ts'
import { type ReadFile, readFile } from '../reading/read-file.ts'
import type { FileAnswers } from '../reading/worker-message.ts'
import { checkWords } from '../strings/check-words.ts'

/** How far the page is with the file it was given. */
export type Reading =
  | { readonly kind: 'none' }
  | { readonly kind: 'reading'; readonly name: string; readonly read: number; readonly of: number }
  | { readonly kind: 'refused'; readonly name: string; readonly refusal: Refusal }
  | { readonly kind: 'read'; readonly file: ReadFile; readonly member: number }

/** The file at hand, and what can be done with it. */
export interface ReadingAtHand {
  readonly reading: Reading
  readonly take: (file: File) => void
  /** Reads the file at hand anew, with what a person answered of it. */
  readonly answer: (answers: FileAnswers) => void
  readonly cancel: () => void
  /** Which print of a file with several. */
  readonly choose: (member: number) => void
}

/** Reads one file at a time: a new one ends the reading of the last. */
export function useReading(): ReadingAtHand {
  const [reading, setReading] = useState<Reading>({ kind: 'none' })
  const running = useRef<AbortController | null>(null)

  const cancel = useCallback((): void => {
    running.current?.abort()
    running.current = null
    setReading({ kind: 'none' })
  }, [])

  const last = useRef<{ readonly file: File; readonly answers: FileAnswers } | null>(null)
  const read = useCallback((file: File, answers: FileAnswers, of: number): void => {
    last.current = { file, answers }
    running.current?.abort()
    const control = new AbortController()
    running.current = control
    const { name, size } = file
    const show = (next: Reading): void => {
      if (!control.signal.aborted) setReading(next)
    }
    show({ kind: 'reading', name, read: 0, of: size })
    const onProgress = (bytes: number): void =>
      show({ kind: 'reading', name, read: bytes, of: size })
    readFile(file, answers, onProgress, control.signal).then(
      (outcome) =>
        show(
          outcome.ok
            ? { kind: 'read', file: outcome.value, member: of }
            : { kind: 'refused', name, refusal: outcome.refusal },
        ),
      (error: unknown) => {
        // A reader that could not even be fetched says nothing.
        const message =
          error instanceof Error && error.message !== '' ? error.message : checkWords.noReader
        show({ kind: 'refused', name, refusal: { code: 'reading_failed', message } })
      },
    )
  }, [])

  const take = useCallback((file: File): void => read(file, {}, 0), [read])

  const chosen = reading.kind === 'read' ? reading.member : 0
  const answer = useCallback(
    (more: FileAnswers): void => {
      if (last.current === null) return
      read(last.current.file, { ...last.current.answers, ...more }, chosen)
    },
    [read, chosen],
  )

  const choose = useCallback((member: number): void => {
    setReading((now) => (now.kind === 'read' ? { ...now, member } : now))
  }, [])

  return { reading, take, answer, cancel, choose }
}
