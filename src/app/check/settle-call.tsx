import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { ToolCheckJson, WeighingTellJson } from '../../contract/index.ts'
import { checkWords } from '../strings/check-words.ts'
import { benchWay } from '../way/bench-way.ts'
import styles from './check.module.css'
import { WeighField } from './weigh-field.tsx'

/** A measurement that settles a call more seldom than this is not worth its line. */
const worthTelling = 0.05

/** What would settle a close call: the reel on a scale, here; anything else at the bench. */
export function SettleCall({
  check,
  reel,
  isWeighed,
  onWeighing,
}: {
  readonly check: ToolCheckJson
  readonly reel: string
  /** True while the verdict is that of a supposed weighing. */
  readonly isWeighed: boolean
  readonly onWeighing: (weighing: WeighingTellJson | null) => void
}): ReactNode {
  const others = check.next.filter(
    ({ id, settles }) =>
      id !== 'weigh_reel' && settles >= worthTelling && benchWay(id, reel) !== null,
  )
  const isOpen = check.verdict === 'close' || isWeighed
  return (
    <>
      <WeighField key={reel} reel={reel} isOpen={isOpen} onWeighing={onWeighing} />
      {check.verdict !== 'close' || others.length === 0 ? null : (
        <ul className={styles['ways']}>
          {others.map(({ id, instruction, settles }) => (
            <li key={id}>
              {checkWords.settles(instruction, settles)}{' '}
              <Link href={benchWay(id, reel) ?? ''}>{checkWords.atBench}</Link>
            </li>
          ))}
        </ul>
      )}
    </>
  )
}
