import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { SheetFrame } from '../frame/sheet-frame.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { AccessSheet } from './access-sheet.tsx'
import { BackupSheet } from './backup-sheet.tsx'
import { DemoSheet } from './demo-sheet.tsx'
import { ImportSheet } from './import-sheet.tsx'
import { PriorsSheet } from './priors-sheet.tsx'
import { RowsSheet } from './rows-sheet.tsx'
import styles from './set-up.module.css'

type Part = keyof typeof setUpWords.parts

const sheets: Readonly<Record<Part, () => ReactNode>> = {
  printers: () => <RowsSheet key="printer" kind="printer" />,
  makes: () => <RowsSheet key="make" kind="make" />,
  materials: () => <RowsSheet key="material" kind="material" />,
  scales: () => <RowsSheet key="scale" kind="scale" />,
  people: () => <RowsSheet key="person" kind="person" />,
  priors: () => <PriorsSheet />,
  backup: () => <BackupSheet />,
  import: () => <ImportSheet />,
  access: () => <AccessSheet />,
  demo: () => <DemoSheet />,
}

/** The parts of the set-up, or one of them. */
export function SetUpSheet({ part }: { readonly part: string | null }): ReactNode {
  if (part !== null && Object.hasOwn(sheets, part)) return sheets[part as Part]()
  return (
    <SheetFrame title={frameWords.setUp}>
      <h1>{frameWords.setUp}</h1>
      {part === null ? <p>{setUpWords.lead}</p> : <p role="alert">{setUpWords.noPart}</p>}
      <ul className={styles['parts']}>
        {Object.entries(setUpWords.parts).map(([to, [title, what]]) => (
          <li key={to}>
            <Link href={`/set-up/${to}`}>{title}</Link>
            <span>{what}</span>
          </li>
        ))}
      </ul>
    </SheetFrame>
  )
}
