import { type ReactNode, useState } from 'react'
import type { SupposedJson, ToolCheckJson } from '../../contract/index.ts'
import { Said } from '../look/said.tsx'
import { checkWords } from '../strings/check-words.ts'
import styles from './check.module.css'
import { CalipersInPlace, CarrierInPlace, CutInPlace } from './measures-in-place.tsx'
import type { SupposedPart } from './supposed-part.ts'
import { waysToSettle } from './ways-to-settle.ts'
import { WeighField } from './weigh-field.tsx'

/** What would settle a close call, each with fields to type it right here: the best one first. */
export function SettleCall({
  check,
  reel,
  supposed = {},
  onSuppose,
}: {
  readonly check: ToolCheckJson
  readonly reel: string
  /** What the verdict supposes to have been measured. */
  readonly supposed?: SupposedJson | undefined
  readonly onSuppose: (part: SupposedPart) => void
}): ReactNode {
  const [asked, setAsked] = useState({ reel, next: check.next })
  // What is supposed is asked for no more: while it is, its fields stay where and as they are.
  const before = asked.reel === reel ? asked.next : check.next
  const ways = waysToSettle(check, before, supposed)
  if (asked.reel !== reel || (!ways.isSupposed && asked.next !== check.next)) {
    setAsked({ reel, next: check.next })
  }
  return (
    <>
      {ways.order.map((way) => {
        if (way.kind === 'told') {
          const { id, instruction, settles } = way.next
          return (
            <p key={`${reel} ${id}`} className={styles['told']}>
              <Said>{checkWords.settles(instruction, settles)}</Said>
            </p>
          )
        }
        const { kind, next, isFirst, isOpen } = way
        const key = `${reel} ${kind}`
        if (kind === 'weighing') {
          return (
            <WeighField
              key={key}
              reel={reel}
              isOpen={isOpen}
              onWeighing={(weighing) => onSuppose({ weighing })}
            />
          )
        }
        const common = {
          reel,
          isFirst,
          about: isOpen && next ? checkWords.settles(next.instruction, next.settles) : null,
        }
        if (kind === 'empty_carrier') {
          return (
            <CarrierInPlace
              key={key}
              {...common}
              onSuppose={(empty_carrier) => onSuppose({ empty_carrier })}
            />
          )
        }
        if (kind === 'calipers') {
          return (
            <CalipersInPlace
              key={key}
              {...common}
              onSuppose={(calipers) => onSuppose({ calipers })}
            />
          )
        }
        return <CutInPlace key={key} {...common} onSuppose={(cut) => onSuppose({ cut })} />
      })}
    </>
  )
}
