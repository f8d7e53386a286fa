import type { ReactNode } from 'react'
import { LineSelect } from '../field/line-select.tsx'
import { benchWords } from '../strings/bench-words.ts'
import type { ScaleChoice } from './use-scale-choice.ts'

/** Which scale it stands on, where there are several. */
export const ScaleSelect = ({
  choice: { scales, scale, setScale },
}: {
  readonly choice: ScaleChoice
}): ReactNode =>
  scales.length < 2 || scale === null ? null : (
    <LineSelect label={benchWords.scale} choices={scales} value={scale} onChange={setScale} />
  )
