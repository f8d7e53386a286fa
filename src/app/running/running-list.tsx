import { type ReactNode, useEffect, useRef, useState } from 'react'
import type { RecordedJson, StoppedAtJson } from '../../contract/index.ts'
import { hotMachineCaution } from '../../contract/index.ts'
import { focusIfLost } from '../field/focus-if-lost.ts'
import { Press } from '../field/press.tsx'
import { useChoices } from '../look/choices.tsx'
import { PutRight } from '../putting-right/put-right.tsx'
import { WhatBecame } from '../recorded/what-became.tsx'
import { recordWords } from '../strings/record-words.ts'
import styles from './running.module.css'
import { isRunningKept } from './running-here.ts'
import type { RunningPrint, RunningShown } from './running-print.ts'
import { RunningRow } from './running-row.tsx'
import { useRunning } from './use-running.ts'

interface Ended {
  readonly print: RunningPrint
  readonly answer: RecordedJson
  readonly stopped: StoppedAtJson | null
}

/** The prints that are running, and what became of those that ended just now. */
export function RunningList({
  reel,
  children,
}: {
  /** Only those on this reel. */
  readonly reel?: string
  /** Stands above the prints that are running. */
  readonly children?: ReactNode
}): ReactNode {
  const all = useRunning()
  const [ended, setEnded] = useState<readonly Ended[]>([])
  /** Of which it is being written down what became of them: word of that may come before the answer. */
  const [ending, setEnding] = useState<readonly RunningShown[]>([])
  const here = [...all, ...ending.filter(({ draw }) => all.every((one) => one.draw !== draw))]
  const running = here
    .filter(({ draw }) => ended.every(({ print }) => print.draw !== draw))
    .filter((one) => reel === undefined || one.reels.some((each) => each.reel === reel))
  const heading = useRef<HTMLHeadingElement>(null)
  const shown = running.length + ended.length
  const shownBefore = useRef(shown)
  useEffect(() => {
    // The press that ended it is gone with its row.
    if (shown < shownBefore.current) {
      focusIfLost(heading.current ?? document.querySelector('main'))
    }
    shownBefore.current = shown
  }, [shown])
  if (shown === 0) return null
  const forget = (draw: string): void =>
    setEnded((now) => now.filter(({ print }) => print.draw !== draw))
  return (
    <section className={styles['running']} aria-label={recordWords.running}>
      <h2 ref={heading} tabIndex={-1}>
        {recordWords.running}
      </h2>
      {isRunningKept() || !running.some(waitsHere) ? null : (
        <p role="alert">{recordWords.notKept}</p>
      )}
      {running.length === 0 ? null : children}
      <ul>
        {ended.map((one) => (
          <EndedRow key={one.print.draw} ended={one} onDone={() => forget(one.print.draw)} />
        ))}
        {running.map((print) => (
          <RunningRow
            key={print.draw}
            print={print}
            onBusy={(isBusy) =>
              setEnding((now) => [
                ...now.filter((one) => one.draw !== print.draw),
                ...(isBusy ? [print] : []),
              ])
            }
            onRecorded={(answer, stopped) =>
              setEnded((now) => [
                ...now.filter((one) => one.print.draw !== print.draw),
                { print, answer, stopped },
              ])
            }
          />
        ))}
      </ul>
      {running.length === 0 ? null : <p className={styles['soft']}>{hotMachineCaution}</p>}
    </section>
  )
}

const waitsHere = ({ waits, changes }: RunningShown): boolean => waits || changes.length > 0

function EndedRow({
  ended: { print, answer, stopped },
  onDone,
}: {
  readonly ended: Ended
  readonly onDone: () => void
}): ReactNode {
  const { unit } = useChoices()
  const [wrong, setWrong] = useState<string | null>(null)
  // Several reels fed it: each has a fact of its own.
  const whatOf = (fact: RecordedJson['facts'][number]): string =>
    fact.kind === 'drew' ? recordWords.runningSince(print.file, [fact]) : fact.kind
  return (
    <li className={styles['print']}>
      <p ref={focusIfLost} tabIndex={-1}>
        <b className={styles['file']}>{recordWords.runningSince(print.file, print.reels)}</b>{' '}
        <span className={styles['soft']}>{recordWords.stopped(stopped)}</span>
      </p>
      <WhatBecame answer={answer} unit={unit} />
      {answer.facts
        .filter(({ id }) => id === wrong)
        .map((fact) => (
          <PutRight
            key={fact.id}
            fact={{ id: fact.id, kind: fact.kind, isOfReel: true, what: whatOf(fact) }}
            unit={unit}
            onClose={onDone}
          />
        ))}
      {wrong === null ? (
        <div className={styles['presses']}>
          <Press onPress={onDone}>{recordWords.done}</Press>
          {answer.facts.map((fact) => (
            <Press key={fact.id} onPress={() => setWrong(fact.id)}>
              {answer.facts.length === 1
                ? recordWords.putRight
                : recordWords.putRightOf(whatOf(fact))}
            </Press>
          ))}
        </div>
      ) : null}
    </li>
  )
}
