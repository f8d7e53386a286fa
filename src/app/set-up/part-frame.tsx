import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import type { TitleLine } from '../frame/title-block.tsx'
import { Failure } from '../look/said.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import styles from './set-up.module.css'

/** The sheet of one part of the set-up, with the way back. */
export function PartFrame({
  part,
  lines = [],
  error = null,
  children,
}: {
  readonly part: keyof typeof setUpWords.parts
  readonly lines?: readonly TitleLine[]
  /** Why there is nothing to show. */
  readonly error?: Error | null
  readonly children: ReactNode
}): ReactNode {
  const [title] = setUpWords.parts[part]
  return (
    <SheetFrame title={`${frameWords.setUp}: ${title}`} lines={lines}>
      <p className={styles['back']}>
        <Link href="/set-up">← {setUpWords.back}</Link>
      </p>
      <h1>{title}</h1>
      {error === null ? (
        children
      ) : (
        <div role="alert">
          <p>
            {setUpWords.failed}: <Failure of={error} />
          </p>
        </div>
      )}
    </SheetFrame>
  )
}
