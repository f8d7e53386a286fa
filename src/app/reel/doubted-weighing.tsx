import { type ReactNode, useState } from 'react'
import type { ReelShowJson } from '../../contract/index.ts'
import { Press } from '../field/press.tsx'
import { PutRight } from '../putting-right/put-right.tsx'
import { recordWords } from '../strings/record-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { weighingWords } from '../strings/weighing-words.ts'
import styles from './reel.module.css'

/** The weighing of a reel that everything else contradicts, and a way to put it right. */
export function DoubtedWeighing({
  reel: { contradicted, facts },
  unit,
}: {
  readonly reel: Pick<ReelShowJson, 'contradicted' | 'facts'>
  readonly unit: MassUnit
}): ReactNode {
  // What became of it stays to be read though no weighing is in doubt any more by then.
  const [wrong, setWrong] = useState<ReelShowJson['facts'][number] | null>(null)
  const fact = facts.find(({ id }) => id === contradicted?.fact)
  return (
    <>
      {contradicted === null ? null : (
        <p className={styles['next']}>
          {weighingWords.contradicted(contradicted, fact?.kind ?? '', unit)}{' '}
          {fact === undefined || wrong?.id === fact.id ? null : (
            <Press onPress={() => setWrong(fact)}>{recordWords.putRight}</Press>
          )}
        </p>
      )}
      {wrong === null ? null : (
        <PutRight
          key={wrong.id}
          fact={{ ...wrong, isOfReel: true }}
          unit={unit}
          onClose={() => setWrong(null)}
        />
      )}
    </>
  )
}
