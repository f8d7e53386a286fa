import { type ReactNode, useId } from 'react'
import styles from './field.module.css'

/** A colour on a screen, `#rrggbb`, chosen as the device lets one choose. */
export function ColourField({
  label,
  value,
  onChange,
}: {
  readonly label: string
  readonly value: string
  readonly onChange: (value: string) => void
}): ReactNode {
  const id = useId()
  return (
    <div className={styles['field']}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="color"
        value={value}
        onChange={(event) => onChange(event.target.value)}
        className={styles['colour']}
      />
    </div>
  )
}
