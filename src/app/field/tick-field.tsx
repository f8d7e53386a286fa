import { type ReactNode, useId } from 'react'
import styles from './field.module.css'

/** Something that is so, or is not. */
export function TickField({
  label,
  isSo,
  onChange,
}: {
  readonly label: string
  readonly isSo: boolean
  readonly onChange: (isSo: boolean) => void
}): ReactNode {
  const id = useId()
  return (
    <div className={styles['tick']}>
      <input
        id={id}
        type="checkbox"
        checked={isSo}
        onChange={(event) => onChange(event.target.checked)}
      />
      <label htmlFor={id}>{label}</label>
    </div>
  )
}
