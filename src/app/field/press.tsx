import type { ReactNode } from 'react'
import { Button, type ButtonProps } from 'react-aria-components'
import styles from './field.module.css'

/** What can be pressed: a word in a thin frame. */
export function Press({
  main = false,
  isWaiting = false,
  onPress,
  ...rest
}: ButtonProps & {
  /** The one press that a sheet is about. */
  readonly main?: boolean
  /** True while what it asked for is under way: it does nothing, and keeps the focus. */
  readonly isWaiting?: boolean
}): ReactNode {
  return (
    <Button
      {...rest}
      {...(onPress && { onPress: (event) => (isWaiting ? undefined : onPress(event)) })}
      className={[
        styles['press'],
        ...(main ? [styles['main']] : []),
        ...(isWaiting ? [styles['waiting']] : []),
      ].join(' ')}
    />
  )
}
