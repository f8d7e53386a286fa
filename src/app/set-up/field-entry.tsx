import type { ReactNode } from 'react'
import { ChoiceField } from '../field/choice-field.tsx'
import { PickMaterial } from '../field/pick-of.tsx'
import { TypedField } from '../field/typed-field.tsx'
import type { RowField } from './row-field.ts'

/** One thing that is told of a row, typed or chosen. */
export function FieldEntry({
  field: { label, hint, read, needed, choices, isMaterial },
  text,
  refused,
  isFirst,
  onText,
}: {
  readonly field: RowField
  readonly text: string
  /** What its form has against it. */
  readonly refused: string | null
  readonly isFirst: boolean
  readonly onText: (text: string) => void
}): ReactNode {
  if (isMaterial === true) {
    return (
      <PickMaterial
        label={label}
        value={text === '' ? null : text}
        onChange={(id) => onText(id ?? '')}
      />
    )
  }
  return choices === undefined ? (
    <TypedField
      label={label}
      hint={hint}
      text={text}
      onText={onText}
      read={read}
      refused={refused}
      needed={needed === true}
      isFirst={isFirst}
    />
  ) : (
    <ChoiceField label={label} words={choices} value={text} onChange={onText} refused={refused} />
  )
}
