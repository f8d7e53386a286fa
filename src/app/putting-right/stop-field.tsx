import { type ReactNode, useState } from 'react'
import type { StoppedAtJson } from '../../contract/index.ts'
import { accept, type Outcome, parsePercent, refuse } from '../../units/index.ts'
import { LengthField, QuantityField } from '../field/quantity-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { recordWords } from '../strings/record-words.ts'

/** How many layers the print has, and how high it is, the ledger knows: it refuses more. */
const layerNumber = (text: string): Outcome<number> => {
  const typed = text.trim()
  return /^[1-9]\d{0,6}$/.test(typed)
    ? accept(Number(typed))
    : refuse({ code: 'layer_out_of_range', message: recordWords.rightLayerRefused })
}

/** Where a print of which only the ledger knows more ended before its end. */
export function StopField({
  onStopped,
}: {
  /** Told at every change; null while what stands there is no place. */
  readonly onStopped: (stopped: StoppedAtJson | null) => void
}): ReactNode {
  const [way, setWay] = useState<keyof typeof recordWords.told>('layer')
  return (
    <>
      <WordChoice
        label={recordWords.where}
        words={recordWords.told}
        value={way}
        onChange={(next) => {
          setWay(next)
          onStopped(null)
        }}
      />
      {way === 'layer' ? (
        <QuantityField
          key="layer"
          label={recordWords.rightLayer}
          parse={layerNumber}
          onValue={(layer) => onStopped(layer === null ? null : { layer })}
        />
      ) : null}
      {way === 'height' ? (
        <LengthField
          key="height"
          bare="mm"
          label={recordWords.rightHeight}
          onValue={(height) => onStopped(height && { height_mm: height.value })}
        />
      ) : null}
      {way === 'share' ? (
        <QuantityField
          key="share"
          label={recordWords.share}
          parse={parsePercent}
          onValue={(share) => onStopped(share && { share: share.value })}
        />
      ) : null}
    </>
  )
}
