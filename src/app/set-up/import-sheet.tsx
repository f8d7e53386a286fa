import { type ReactNode, useState } from 'react'
import { FileTrigger } from 'react-aria-components'
import { Press } from '../field/press.tsx'
import { Said } from '../look/said.tsx'
import { importWords } from '../strings/import-words.ts'
import { setUpWords } from '../strings/set-up-words.ts'
import { Download } from './download.tsx'
import { ImportLines } from './import-lines.tsx'
import { ImportTable } from './import-table.tsx'
import { PartFrame } from './part-frame.tsx'
import styles from './set-up.module.css'
import { textOfFile } from './text-of-file.ts'

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
  const [refused, setRefused] = useState<{ readonly name: string; readonly why: string } | null>(
    null,
  )
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
            const { name } = chosen
            void textOfFile(chosen).then((text) => {
              setRefused(text.ok ? null : { name, why: text.refusal.message })
              setFile((last) =>
                text.ok ? { name, text: text.value, at: (last?.at ?? 0) + 1 } : null,
              )
            })
          }}
        >
          <Press>{file === null ? importWords.choose : importWords.another}</Press>
        </FileTrigger>
        {refused === null ? null : (
          <p role="alert" className={styles['refused']}>
            {importWords.notRead(refused.name)}: <Said>{refused.why}</Said>
          </p>
        )}
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
