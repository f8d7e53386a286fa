import { type ReactNode, useState } from 'react'
import { FileTrigger } from 'react-aria-components'
import { Press } from '../field/press.tsx'
import { importWords } from '../strings/import-words.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { Download } from './download.tsx'
import { ImportLines } from './import-lines.tsx'
import { ImportTable } from './import-table.tsx'
import { PartFrame } from './part-frame.tsx'
import styles from './set-up.module.css'

/** A file as it was chosen. */
export interface ChosenFile {
  readonly name: string
  readonly text: string
  /** Grows with each choice. */
  readonly at: number
}

/** The ledger as lines or tables, out; lines, or a table of reels, in. */
export function ImportSheet(): ReactNode {
  const [file, setFile] = useState<ChosenFile | null>(null)
  const isLedger = file !== null && /^\uFEFF?\s*\{/.test(file.text)
  return (
    <PartFrame part="import">
      <section className={styles['section']}>
        <h2>{importWords.importing}</h2>
        <p>{importWords.lead}</p>
        <FileTrigger
          onSelect={(files) => {
            const chosen = files?.[0]
            if (chosen === undefined) return
            void chosen
              .text()
              .then((text) => setFile({ name: chosen.name, text, at: (file?.at ?? 0) + 1 }))
          }}
        >
          <Press>{file === null ? importWords.choose : importWords.another}</Press>
        </FileTrigger>
        {file === null ? null : isLedger ? (
          <ImportLines key={file.at} file={file} />
        ) : (
          <ImportTable key={file.at} file={file} />
        )}
      </section>
      <section className={styles['section']}>
        <h2>{setUpWords.exporting}</h2>
        <p>{setUpWords.exportLead}</p>
        <Download href="/api/export">{setUpWords.exportGet}</Download>
        <p>{setUpWords.tablesLead}</p>
        <ul className={styles['downloads']}>
          {Object.entries(setUpWords.tables).map(([name, word]) => (
            <li key={name}>
              <Download href={`/api/tables/${name}`}>{word}</Download>
            </li>
          ))}
        </ul>
      </section>
    </PartFrame>
  )
}
