import { type ReactNode, useState } from 'react'
import type { StoppedAtJson } from '../../contract/index.ts'
import { accept, measured, type Outcome, parsePercent, refuse } from '../../units/index.ts'
import { LengthField, QuantityField } from '../field/quantity-field.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { recordWords } from '../strings/record-words.ts'
import type { RunningPrint } from './running-print.ts'

/** A layer of a print as it is typed. */
export const layerUpTo =
  (count: number, first = 1) =>
  (text: string): Outcome<ReturnType<typeof measured>> => {
    const typed = text.replaceAll(/[\s,.](?=\d{3}$)/g, '').trim()
    const layer = Number(typed)
    return /^\d+$/.test(typed) && layer >= first && layer <= count
      ? accept(measured(layer))
      : refuse({ code: 'layer_out_of_range', message: recordWords.layerRefused(count, first) })
  }

/** Where a print ended before its end: as a layer, a height, or a share of its filament. */
export function WhereItStopped({
  layers,
  onStopped,
}: {
  readonly layers: RunningPrint['layers']
  /** Told at every change; null while what stands there is no place in the print. */
  readonly onStopped: (stopped: StoppedAtJson | null) => void
}): ReactNode {
  const count = layers.height_mm.length
  const isLayered = count > 0
  const ways = isLayered
    ? layers.spiral
      ? (['height', 'share'] as const)
      : (['layer', 'height', 'share'] as const)
    : (['share'] as const)
  const [way, setWay] = useState<'layer' | 'height' | 'share'>(ways[0])
  return (
    <>
      {ways.length === 1 ? null : (
        <WordChoice<string>
          label={recordWords.where}
          words={Object.fromEntries(ways.map((one) => [one, recordWords.told[one]]))}
          value={way}
          onChange={(next) => {
            setWay(next as typeof way)
            onStopped(null)
          }}
        />
      )}
      {way === 'layer' ? (
        <QuantityField
          key="layer"
          label={recordWords.layer(count)}
          parse={layerUpTo(count)}
          onValue={(layer) => onStopped(layer && { layer: layer.value })}
        />
      ) : null}
      {way === 'height' ? (
        <LengthField
          key="height"
          bare="mm"
          label={recordWords.height(Math.max(...layers.height_mm))}
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
