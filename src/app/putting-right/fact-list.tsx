import { type ReactNode, useState } from 'react'
import type { ToldFactJson } from '../../contract/index.ts'
import { showId } from '../../contract/index.ts'
import { formatIsoMinute } from '../../units/index.ts'
import { Press } from '../field/press.tsx'
import { recordWords } from '../strings/record-words.ts'
import { saidIn } from '../strings/said-in.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { PutRight } from './put-right.tsx'
import styles from './putting-right.module.css'

/** Facts, latest first, each with a way to put it right. */
export function FactList({
  facts,
  isOfReel,
  unit,
}: {
  readonly facts: readonly ToldFactJson[]
  /** Whether they are a reel's, or of a make alone. */
  readonly isOfReel: boolean
  readonly unit: MassUnit
}): ReactNode {
  const [wrong, setWrong] = useState<string | null>(null)
  return (
    <ol className={styles['facts']}>
      {facts.toReversed().map((fact) => (
        <li key={fact.id}>
          <div className={styles['fact']}>
            <time dateTime={fact.at}>{formatIsoMinute(fact.at)}</time>
            {fact.voided === null ? (
              <span>{saidIn(fact.what, unit)}</span>
            ) : (
              <span>
                <s>{saidIn(fact.what, unit)}</s> {recordWords.voided(fact.voided.reason)}
              </span>
            )}
            {wrong === fact.id ? null : (
              <Press
                aria-label={
                  fact.voided === null
                    ? `${recordWords.putRight}: ${saidIn(fact.what, unit)}, ${showId(fact.id)}`
                    : `${recordWords.holdsAgain}: ${saidIn(fact.what, unit)}, ${showId(fact.id)}`
                }
                onPress={() => setWrong(fact.id)}
              >
                {fact.voided === null ? recordWords.putRight : recordWords.holdsAgain}
              </Press>
            )}
          </div>
          {wrong === fact.id ? (
            <Mended fact={fact} isOfReel={isOfReel} unit={unit} onClose={() => setWrong(null)} />
          ) : null}
        </li>
      ))}
    </ol>
  )
}

/** The form stays on what it was opened for, though the fact does not hold any more by then. */
function Mended({
  fact,
  isOfReel,
  unit,
  onClose,
}: {
  readonly fact: ToldFactJson
  readonly isOfReel: boolean
  readonly unit: MassUnit
  readonly onClose: () => void
}): ReactNode {
  // What was voided holds again when the fact that voided it is put right.
  const [about] = useState(
    fact.voided === null ? fact : { ...fact, id: fact.voided.by, kind: 'put-right' },
  )
  return <PutRight fact={{ ...about, isOfReel }} unit={unit} onClose={onClose} />
}
