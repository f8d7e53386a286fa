import type { ReactNode } from 'react'
import { setUpWords } from '../strings/set-up-words.ts'
import { DemoPress } from '../touch/demo-press.tsx'
import { useTouch } from '../touch/touch.tsx'
import { PartFrame } from './part-frame.tsx'
import styles from './set-up.module.css'

/** The demo shelf, put in the place of the ledger or removed again. */
export function DemoSheet(): ReactNode {
  const isDemo = useTouch().session?.demo === true
  return (
    <PartFrame part="demo">
      <section className={styles['section']}>
        <p>{isDemo ? setUpWords.demoOn : setUpWords.demoOff}</p>
        {/* While it is there its press stands at the foot of every sheet. */}
        {isDemo ? null : <DemoPress />}
      </section>
    </PartFrame>
  )
}
