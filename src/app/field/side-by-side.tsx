import type { ReactNode } from 'react'
import styles from './field.module.css'

/** Fields side by side where there is room. */
export const SideBySide = ({ children }: { readonly children: ReactNode }): ReactNode => (
  <div className={styles['side']}>{children}</div>
)
