import type { ReactNode } from 'react'
import { FirstSteps } from '../first/first-steps.tsx'
import type { FirstRunAtHand } from '../first/use-first-run.ts'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { RunningList } from '../running/running-list.tsx'
import { checkWords } from '../strings/check-words.ts'
import { firstWords } from '../strings/first-words.ts'
import { frameWords } from '../strings/frame-words.ts'
import { Answer } from './answer.tsx'
import { TakePrint } from './take-print.tsx'
import type { ReadingAtHand } from './use-reading.ts'

/** Will a reel of the shelf finish this print? */
export function CheckSheet({
  at,
  first,
}: {
  readonly at: ReadingAtHand
  readonly first: FirstRunAtHand
}): ReactNode {
  const { reading } = at
  if (!first.isOn && reading.kind === 'read') {
    return (
      <Answer
        read={reading}
        at={at}
        note={first.added === null ? null : firstWords.isOn(first.added)}
      />
    )
  }
  return (
    <SheetFrame title={frameWords.check}>
      <h1 className="spoken">{checkWords.question}</h1>
      <RunningList />
      {first.isOn ? (
        <FirstSteps at={at} first={first}>
          <TakePrint at={at} small />
        </FirstSteps>
      ) : (
        <TakePrint at={at} />
      )}
    </SheetFrame>
  )
}
