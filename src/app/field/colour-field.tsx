import { type ReactNode, useId, useRef } from 'react'
import { fieldWords } from '../strings/field-words.ts'
import styles from './field.module.css'
import { Press } from './press.tsx'

/**
 * What the device's list of colours begins at, where none is told: one that nobody wants, as a list tells nothing
 * of the colour that it begins with.
 */
const begins = '#7f8182'

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
  const box = useRef<HTMLInputElement>(null)
  return (
    <div className={styles['field']}>
      <label htmlFor={id}>{label}</label>
      <span className={styles['colourLine']}>
        <input
          ref={box}
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
          <Press
            onPress={() => {
              onChange(null)
              // The press goes with the colour.
              box.current?.focus()
            }}
          >
            {fieldWords.colourBack}
          </Press>
        )}
      </span>
    </div>
  )
}
