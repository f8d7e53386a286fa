import { type ReactNode, useId, useState } from 'react'
import { motionRowOf } from '../../ledger/index.ts'
import { firmwareFamilies, motionOfReport } from '../../print/index.ts'
import fieldStyles from '../field/field.module.css'
import { Press } from '../field/press.tsx'
import { motionWords } from '../strings/motion-words.ts'
import { motionFields } from './motion-fields.ts'
import styles from './set-up.module.css'

type Texts = Readonly<Record<string, string>>

/** How a printer moves: value by value, or all that its own report tells. */
export function MotionPart({
  texts,
  isWrong,
  onTexts,
  children,
}: {
  /** As they stand in the form. */
  readonly texts: Texts
  /** A value in it is refused: it must be seen. */
  readonly isWrong: boolean
  readonly onTexts: (texts: Texts) => void
  /** The fields of the values. */
  readonly children: ReactNode
}): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const [report, setReport] = useState('')
  const [said, setSaid] = useState('')
  const id = useId()
  const takeOver = (): void => {
    const told = textsOfReport(report, texts['firmware'] ?? '')
    setSaid(
      told === null ? motionWords.nothingThere : motionWords.taken(Object.keys(told.values).length),
    )
    if (told !== null) onTexts({ ...told.firmware, ...told.values })
  }
  return (
    <details
      className={styles['motion']}
      open={isOpen || isWrong}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>{motionWords.about}</summary>
      <p className={styles['soft']}>{motionWords.lead}</p>
      <div className={styles['motionFields']}>
        {children}
        <div className={fieldStyles['field']}>
          <label htmlFor={id}>{motionWords.paste}</label>
          <textarea
            id={id}
            rows={3}
            spellCheck={false}
            className={fieldStyles['input']}
            value={report}
            onChange={({ target }) => setReport(target.value)}
          />
        </div>
      </div>
      <p className={styles['presses']}>
        <Press isDisabled={report.trim() === ''} onPress={takeOver}>
          {motionWords.takeOver}
        </Press>
        <span role="status" className={styles['soft']}>
          {said}
        </span>
      </p>
    </details>
  )
}

/** What a printer's own words tell, as it would be typed; null where they tell nothing of motion. */
const textsOfReport = (
  report: string,
  firmware: string,
): { readonly values: Texts; readonly firmware: Texts } | null => {
  const known = firmwareFamilies.find(({ id }) => id === firmware)?.id
  const found = motionOfReport(report, known)
  if (found?.values === undefined) return null
  const family = found.family ?? firmware
  const row = motionRowOf(found.values)
  const told: Texts = { firmware: family, ...(row.corner !== undefined && { corner: row.corner }) }
  const held: Readonly<Record<string, unknown>> = { ...row }
  const values = Object.fromEntries(
    motionFields(told).flatMap(({ key, show }) => {
      const text = show(held[key])
      return text === '' ? [] : [[key, text]]
    }),
  )
  return { values, firmware: family === '' ? {} : { firmware: family } }
}
