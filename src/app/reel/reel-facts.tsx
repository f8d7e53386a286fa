import { type ReactNode, useState } from 'react'
import type { ReelShowJson } from '../../contract/index.ts'
import { showId } from '../../contract/index.ts'
import { formatIsoMinute } from '../../units/index.ts'
import { Press } from '../field/press.tsx'
import { PutRight } from '../putting-right/put-right.tsx'
import { recordWords } from '../strings/record-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import { saidIn } from '../strings/said-in.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './reel.module.css'

/** The facts of a reel, latest first, each with a way to put it right. */
export function ReelFacts({
  facts,
  unit,
}: {
  readonly facts: ReelShowJson['facts']
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
                <s>{saidIn(fact.what, unit)}</s> {reelWords.voided(fact.voided.reason)}
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
            <Mended fact={fact} unit={unit} onClose={() => setWrong(null)} />
          ) : null}
        </li>
      ))}
    </ol>
  )
}

/** The form stays on what it was opened for, though the fact does not hold any more by then. */
function Mended({
  fact,
  unit,
  onClose,
}: {
  readonly fact: ReelShowJson['facts'][number]
  readonly unit: MassUnit
  readonly onClose: () => void
}): ReactNode {
  // What was voided holds again when the fact that voided it is put right.
  const [about] = useState(
    fact.voided === null ? fact : { ...fact, id: fact.voided.by, kind: 'put-right' },
  )
  return <PutRight fact={{ ...about, isOfReel: true }} unit={unit} onClose={onClose} />
}
