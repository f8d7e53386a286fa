import { type ReactNode, useId } from 'react'
import { fieldWords } from '../strings/field-words.ts'
import styles from './field.module.css'
import { Press } from './press.tsx'

/** What the device's list of colours begins at, where none is told. */
const begins = '#808080'

/**
 * A colour on a screen, `#rrggbb`, chosen as the device lets one choose. An empty box stands for one that is
 * not told.
 */
export function ColourField({
  label,
  value,
  onChange,
}: {
  readonly label: string
  readonly value: string | null
  readonly onChange: (value: string | null) => void
}): ReactNode {
  const id = useId()
  return (
    <div className={styles['field']}>
      <label htmlFor={id}>{label}</label>
      <span className={styles['colourLine']}>
        <input
          id={id}
          type="color"
          value={value ?? begins}
          onChange={(event) => onChange(event.target.value)}
          aria-describedby={value === null ? `${id}-untold` : undefined}
          data-untold={value === null}
          className={styles['colour']}
        />
        {value === null ? (
          <span id={`${id}-untold`} className={styles['hint']}>
            {fieldWords.colourUntold}
          </span>
        ) : (
          <Press onPress={() => onChange(null)}>{fieldWords.colourBack}</Press>
        )}
      </span>
    </div>
  )
}
