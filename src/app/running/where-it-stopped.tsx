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

/** A layer of a print of which only the ledger knows how many it has: it refuses more. */
const anyLayer = (text: string): Outcome<ReturnType<typeof measured>> => {
  const typed = text.trim()
  return /^[1-9]\d{0,6}$/.test(typed)
    ? accept(measured(Number(typed)))
    : refuse({ code: 'layer_out_of_range', message: recordWords.rightLayerRefused })
}

const allWays = ['layer', 'height', 'share'] as const
type Way = (typeof allWays)[number]

/** By what a place in a print can be told. */
const waysOf = (layers: RunningPrint['layers'] | null): readonly Way[] => {
  if (layers === null) return allWays
  if (layers.height_mm.length === 0) return ['share']
  return layers.spiral ? ['height', 'share'] : allWays
}

/** Where a print ended before its end: as a layer, a height, or a share of its filament. */
export function WhereItStopped({
  layers,
  onStopped,
}: {
  /** Null where only the ledger knows of them. */
  readonly layers: RunningPrint['layers'] | null
  /** Told at every change; null while what stands there is no place in the print. */
  readonly onStopped: (stopped: StoppedAtJson | null) => void
}): ReactNode {
  const count = layers?.height_mm.length ?? 0
  const ways = waysOf(layers)
  const [way, setWay] = useState(ways[0]!)
  return (
    <>
      {ways.length === 1 ? null : (
        <WordChoice<string>
          label={recordWords.where}
          words={Object.fromEntries(ways.map((one) => [one, recordWords.told[one]]))}
          value={way}
          onChange={(next) => {
            setWay(next as Way)
            onStopped(null)
          }}
        />
      )}
      {way === 'layer' ? (
        <QuantityField
          key="layer"
          label={layers === null ? recordWords.rightLayer : recordWords.layer(count)}
          parse={layers === null ? anyLayer : layerUpTo(count)}
          onValue={(layer) => onStopped(layer && { layer: layer.value })}
        />
      ) : null}
      {way === 'height' ? (
        <LengthField
          key="height"
          bare="mm"
          label={
            layers === null
              ? recordWords.rightHeight
              : recordWords.height(Math.max(...layers.height_mm))
          }
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
