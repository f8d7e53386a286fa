import { Component, type ReactNode } from 'react'
import { Link } from 'wouter'
import { Press } from '../field/press.tsx'
import { boundaryWords } from '../strings/boundary-words.ts'
import { frameWords } from '../strings/frame-words.ts'
import styles from './frame.module.css'
import { SheetFrame } from './sheet-frame.tsx'

interface Drawn {
  /** Of the sheet: at another address another sheet is tried. */
  readonly path: string
  readonly children: ReactNode
  /** Before it is drawn again. */
  readonly onAgain: () => void
}

interface Failed {
  /** Where it could not be drawn; null where it could. */
  readonly at: string | null
}

/**
 * In the place of a sheet that throws: a sentence and ways back. What stands outside, as the print at
 * hand, is kept. React takes such a boundary as a class only.
 */
export class SheetBoundary extends Component<Drawn, Failed> {
  override state: Failed = { at: null }

  static getDerivedStateFromError(): Partial<Failed> {
    return { at: '' }
  }

  static getDerivedStateFromProps({ path }: Drawn, { at }: Failed): Partial<Failed> | null {
    if (at === null || at === path) return null
    return { at: at === '' ? path : null }
  }

  override render(): ReactNode {
    if (this.state.at === null) return this.props.children
    return (
      <SheetFrame title={boundaryWords.title}>
        <div role="alert" className={styles['failed']}>
          <h1>{boundaryWords.title}</h1>
          <p>{boundaryWords.sentence}</p>
        </div>
        <p className={styles['back']}>
          <Press
            onPress={() => {
              this.props.onAgain()
              this.setState({ at: null })
            }}
          >
            {boundaryWords.again}
          </Press>
          <Link href="/">{frameWords.check}</Link>
          <Link href="/shelf">{frameWords.shelf}</Link>
        </p>
      </SheetFrame>
    )
  }
}
