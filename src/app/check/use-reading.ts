import { useCallback, useRef, useState } from 'react'
import type { MotionOptions } from '../../print/index.ts'
import type { Refusal } from '../../units/index.ts'
import { keep, kept } from '../look/kept.ts'
import { type ReadFile, readFile } from '../reading/read-file.ts'
import type { FileAnswers } from '../reading/worker-message.ts'
import { checkWords } from '../strings/check-words.ts'
import { answered, unanswered } from './file-questions.ts'

/** How far the page is with the file it was given. */
export type Reading =
  | { readonly kind: 'none' }
  | { readonly kind: 'reading'; readonly name: string; readonly read: number; readonly of: number }
  | { readonly kind: 'refused'; readonly name: string; readonly refusal: Refusal }
  | PrintRead

/** A file that was read. */
export interface PrintRead {
  readonly kind: 'read'
  readonly file: ReadFile
  /** Which print of it. */
  readonly member: number
  /** Of the file; null while it is worked out. */
  readonly sha256: string | null
}

/** The file at hand, and what can be done with it. */
export interface ReadingAtHand {
  readonly reading: Reading
  readonly take: (file: File) => void
  /** Reads the file at hand anew, with what a person answered of it. */
  readonly answer: (answers: FileAnswers) => void
  /** Reads it anew as if the questions of these answers had not been answered. */
  readonly ask: (given: FileAnswers) => void
  /** What the printer may do that it is to be made on: its times are planned by that, anew where need be. */
  readonly plan: (motion: MotionOptions) => void
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
  const read = useCallback((file: File, answers: FileAnswers, of: number, known?: string): void => {
    last.current = { file, answers }
    running.current?.abort()
    const control = new AbortController()
    running.current = control
    const { name, size } = file
    const show = (next: Reading): void => {
      if (!control.signal.aborted) setReading(next)
    }
    const refuse = (refusal: Refusal): void => {
      // What was read already is not lost where its times can not be planned anew.
      if (known === undefined) show({ kind: 'refused', name, refusal })
      control.abort()
    }
    // A reader that could not even be fetched says nothing.
    const fail = (error: unknown): void =>
      refuse({
        code: 'reading_failed',
        message:
          error instanceof Error && error.message !== '' ? error.message : checkWords.noReader,
      })
    const showAll = async (): Promise<void> => {
      // What is known already stays until it is known better.
      const onProgress = (bytes: number): void => {
        if (known === undefined) show({ kind: 'reading', name, read: bytes, of: size })
      }
      onProgress(0)
      const { read: begun, sha256 } = readFile(file, answers, onProgress, control.signal)
      // Heard below; where the reading ended first, nobody waits for it.
      sha256.catch(() => undefined)
      const outcome = await begun
      if (!outcome.ok) return refuse(outcome.refusal)
      if (known !== undefined) {
        setReading((now) => (now.kind === 'read' ? { ...now, file: outcome.value } : now))
        return undefined
      }
      show({ kind: 'read', file: outcome.value, member: of, sha256: null })
      const digest = await sha256
      if (!digest.ok) return refuse(digest.refusal)
      if (control.signal.aborted) return undefined
      return setReading((now) => (now.kind === 'read' ? { ...now, sha256: digest.value } : now))
    }
    showAll().catch(fail)
  }, [])

  const motion = useRef<MotionOptions>(motionKept())
  const take = useCallback((file: File): void => read(file, { motion: motion.current }, 0), [read])

  const chosen = reading.kind === 'read' ? reading.member : 0
  const answer = useCallback(
    (more: FileAnswers): void => {
      if (last.current === null) return
      const { file, answers } = last.current
      read(file, answered(answers, more), chosen)
    },
    [read, chosen],
  )
  const ask = useCallback(
    (given: FileAnswers): void => {
      if (last.current === null) return
      const { file, answers } = last.current
      read(file, unanswered(answers, given), chosen)
    },
    [read, chosen],
  )

  const sha256 = reading.kind === 'read' ? reading.sha256 : null
  const plan = useCallback(
    (next: MotionOptions): void => {
      const text = JSON.stringify(next)
      motion.current = next
      keep(name, text)
      // While it is read or hashed for the first time it is waited for.
      if (last.current === null || sha256 === null) return
      const { file, answers } = last.current
      if (JSON.stringify(answers.motion) === text) return
      read(file, { ...answers, motion: next }, chosen, sha256)
    },
    [read, chosen, sha256],
  )

  const choose = useCallback((member: number): void => {
    setReading((now) => (now.kind === 'read' ? { ...now, member } : now))
  }, [])

  return { reading, take, answer, ask, plan, cancel, choose }
}

const name = 'motion'

/** Of the printer chosen last: the next print is likely to be for it as well. */
const motionKept = (): MotionOptions => {
  try {
    const found: unknown = JSON.parse(kept(name) ?? '{}')
    return typeof found === 'object' && found !== null ? found : {}
  } catch {
    return {}
  }
}
