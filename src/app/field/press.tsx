import type { ReactNode } from 'react'
import { Button, type ButtonProps } from 'react-aria-components'
import styles from './field.module.css'

/** What can be pressed: a word in a thin frame. */
export function Press({
  main = false,
  ...rest
}: ButtonProps & {
  /** The one press that a sheet is about. */
  readonly main?: boolean
}): ReactNode {
  return <Button {...rest} className={`${styles['press']} ${main ? styles['main'] : ''}`} />
}
