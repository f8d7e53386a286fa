import type { ReactNode } from 'react'
import styles from './set-up.module.css'

/** A file that the server makes and the browser keeps. */
export const Download = ({
  href,
  children,
}: {
  readonly href: string
  readonly children: ReactNode
}): ReactNode => (
  <a href={href} download className={styles['download']}>
    {children}
  </a>
)
