import { type ReactNode, useState } from 'react'
import type { MatchReelJson } from '../../contract/index.ts'
import { ChoiceField } from '../field/choice-field.tsx'
import { Press } from '../field/press.tsx'
import { Said } from '../look/said.tsx'
import { planWords } from '../strings/plan-words.ts'
import { type AskedMatch, withBar, withLock, withoutPrint } from './asked-match.ts'
import type { DutyPicture } from './plan-picture.ts'
import styles from './slate.module.css'

/** Why this reel and not another, and what a person may wish instead. */
export function AboutDuty({
  duty,
  reels,
  asked,
  isBusy,
  onAsk,
}: {
  readonly duty: DutyPicture
  /** Of the plan: their names. */
  readonly reels: readonly MatchReelJson[]
  readonly asked: AskedMatch
  readonly isBusy: boolean
  readonly onAsk: (asked: AskedMatch) => void
}): ReactNode {
  const { waiting, copy, tool, reel, chain, name, why } = duty
  const others = duty.others.flatMap(
    (id) => reels.find((one) => one.reel === id && !one.imagined) ?? [],
  )
  const [other, setOther] = useState(others[0]?.reel ?? '')
  const lock = (wished: readonly string[]): void =>
    onAsk(withLock(asked, { waiting, copy, tool }, wished))
  return (
    <>
      {why.length === 0 ? (
        <p>{planWords.noReason}</p>
      ) : (
        why.map((line) => (
          <p key={line}>
            <Said>{line}</Said>
          </p>
        ))
      )}
      <div className={styles['presses']}>
        <Press isWaiting={isBusy} onPress={() => lock(chain)}>
          {planWords.keepSo(chain)}
        </Press>
        <Press isWaiting={isBusy} onPress={() => onAsk(withBar(asked, { reel, waiting }))}>
          {planWords.notFrom(reel)}
        </Press>
        <Press isWaiting={isBusy} onPress={() => onAsk(withoutPrint(asked, waiting))}>
          {planWords.leaveOut(name)}
        </Press>
      </div>
      {others.length === 0 ? null : (
        <div className={styles['presses']}>
          <ChoiceField
            label={planWords.pickReel}
            words={others.map((one) => [one.reel, `${one.reel} ${one.name}`])}
            value={other}
            onChange={setOther}
          />
          <Press isWaiting={isBusy} onPress={() => lock([other])}>
            {planWords.otherReel}
          </Press>
        </div>
      )}
    </>
  )
}
