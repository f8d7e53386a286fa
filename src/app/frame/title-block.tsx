import type { ReactNode } from 'react'
import { frameWords } from '../strings/frame-words.ts'
import styles from './frame.module.css'

/** What a field of the title block is called, and what stands in it. */
export type TitleLine = readonly [name: string, value: ReactNode]

/** The title block of a technical drawing: what the sheet shows, of what, and when. */
export function TitleBlock({
  title,
  lines,
}: {
  readonly title: string
  readonly lines: readonly TitleLine[]
}): ReactNode {
  return (
    <dl className={styles['block']}>
      <div className={styles['name']}>
        <dt>{frameWords.product}</dt>
        <dd>{title}</dd>
      </div>
      {lines.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}
