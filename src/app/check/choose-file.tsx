import { type ReactNode, useEffect } from 'react'
import { DropZone, FileTrigger } from 'react-aria-components'
import { Press } from '../field/press.tsx'
import { beginAhead } from '../reading/reading-workers.ts'
import { checkWords } from '../strings/check-words.ts'
import styles from './check.module.css'

/** The press that lets a person choose a file. */
export function ChooseFileButton({
  onFile,
  children,
  main = false,
}: {
  readonly onFile: (file: File) => void
  readonly children: ReactNode
  readonly main?: boolean
}): ReactNode {
  return (
    <FileTrigger
      onSelect={(files) => {
        const file = files?.[0]
        if (file !== undefined) onFile(file)
      }}
    >
      <Press main={main}>{children}</Press>
    </FileTrigger>
  )
}

/** The empty sheet: the dashed outline of a print, and what to do. */
export function ChooseFile({
  onFile,
  small = false,
}: {
  readonly onFile: (file: File) => void
  /** As one part of a sheet among others. */
  readonly small?: boolean
}): ReactNode {
  useEffect(beginAhead, [])
  return (
    <DropZone
      aria-label={checkWords.dropHere}
      className={`${styles['drop']} ${small ? styles['dropSmall'] : ''}`}
      onDrop={({ items }) => {
        const item = items.find(({ kind }) => kind === 'file')
        if (item?.kind !== 'file') return
        item.getFile().then(onFile, () => {})
      }}
    >
      <svg viewBox="0 0 300 190" className={styles['emptyPrint']} aria-hidden="true">
        <path
          d="M40 170V96h22V52q0-18 18-18h84q18 0 18 18v22h46q22 0 22 22v74"
          className={styles['dash']}
        />
        <path d="M8 170h284" className={styles['bed']} />
      </svg>
      <p className={styles['ask']}>{checkWords.drop}</p>
      <ChooseFileButton onFile={onFile} main>
        {checkWords.choose}
      </ChooseFileButton>
      <p className={styles['small']}>{checkWords.stays}</p>
    </DropZone>
  )
}
