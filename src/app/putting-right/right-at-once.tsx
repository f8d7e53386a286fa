import { type ReactNode, useState } from 'react'
import type { RecordedJson } from '../../contract/index.ts'
import { Press } from '../field/press.tsx'
import { recordWords } from '../strings/record-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import { PutRight } from './put-right.tsx'

/** Puts right what was just written down of a make: later that is done where the make is set up. */
export function RightAtOnce({
  facts,
  unit,
  onClose,
}: {
  readonly facts: RecordedJson['facts']
  readonly unit: MassUnit
  readonly onClose: () => void
}): ReactNode {
  const [isWrong, setWrong] = useState(false)
  const fact = facts.find(
    (one) => one.kind === 'data-sheet' || (one.kind === 'carrier-weighed' && !one.reel),
  )
  if (fact === undefined) return null
  return isWrong ? (
    <PutRight
      fact={{ id: fact.id, kind: fact.kind, isOfReel: false, what: recordWords.ofMake }}
      unit={unit}
      onClose={onClose}
    />
  ) : (
    <Press onPress={() => setWrong(true)}>{recordWords.putRight}</Press>
  )
}
