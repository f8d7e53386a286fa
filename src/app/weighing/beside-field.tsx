import { type ReactNode, useState } from 'react'
import type { MeasuredJson, WeighingTellJson } from '../../contract/index.ts'
import { Press } from '../field/press.tsx'
import { MassField } from '../field/quantity-field.tsx'
import { weighingWords } from '../strings/weighing-words.ts'

/** What stands on the scale beside what is weighed, a holder or a bag: a press, then a field. */
export function BesideField({
  words = weighingWords.beside,
  onValue,
  onUnread,
}: {
  readonly words?: { readonly press: string; readonly label: string; readonly hint: string }
  /** Told its mass, which is off the reading then; null where there is nothing. */
  readonly onValue: (beside: MeasuredJson | null) => void
  /** Told that something is said to stand there of which no mass can be read yet: no reading is the reel’s until then. */
  readonly onUnread?: (isUnread: boolean) => void
}): ReactNode {
  const [isOpen, setOpen] = useState(false)
  return isOpen ? (
    <MassField
      label={words.label}
      hint={words.hint}
      isFirst
      onValue={(mass, typed) => {
        onValue(mass && { value: mass.value, u: mass.u })
        // Emptied again it says that nothing does.
        onUnread?.(mass === null && typed.trim() !== '')
      }}
    />
  ) : (
    <div>
      <Press
        onPress={() => {
          setOpen(true)
          onUnread?.(true)
        }}
      >
        {words.press}
      </Press>
    </div>
  )
}

/** The weighing with what stood beside. */
export const withBeside = <W extends WeighingTellJson | null>(
  weighing: W,
  beside: MeasuredJson | null,
): W => (weighing === null || beside === null ? weighing : { ...weighing, extra_g: beside })
