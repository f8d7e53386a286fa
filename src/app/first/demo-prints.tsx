import { type ReactNode, useState } from 'react'
import { Press } from '../field/press.tsx'
import { firstWords } from '../strings/first-words.ts'
import { sayFailure } from '../strings/say-failure.ts'
import styles from './first.module.css'

/** As vite.config.ts puts them beside the app. */
const files = ['tackle-box.gcode', 'two-tool-part.gcode', 'vase.gcode'] as const

/** Prints of the demo bench, for who has none at hand. */
export function DemoPrints({ onFile }: { readonly onFile: (file: File) => void }): ReactNode {
  const [failure, setFailure] = useState<string | null>(null)
  const take = async (name: string): Promise<void> => {
    try {
      const response = await fetch(`/demo/${name}`)
      if (!response.ok) throw new Error()
      onFile(new File([await response.blob()], name))
    } catch {
      setFailure(sayFailure(null))
    }
  }
  return (
    <div className={styles['offered']}>
      <p>{firstWords.demoPrints}</p>
      {files.map((name) => (
        <Press key={name} onPress={() => void take(name)}>
          {name}
        </Press>
      ))}
      {failure === null ? null : <p role="alert">{failure}</p>}
    </div>
  )
}
