import { type ReactNode, useEffect, useRef } from 'react'
import { Link, useLocation } from 'wouter'
import { WordChoice } from '../field/word-choice.tsx'
import { useChoices } from '../look/choices.tsx'
import { WaitingNote } from '../offline/waiting-note.tsx'
import { WriterChoice } from '../people/writer-choice.tsx'
import { frameWords } from '../strings/frame-words.ts'
import { DemoPress } from '../touch/demo-press.tsx'
import { LogOutPress } from '../touch/log-out-press.tsx'
import { useTouch } from '../touch/touch.tsx'
import styles from './frame.module.css'
import { TitleBlock, type TitleLine } from './title-block.tsx'
import { touchLines } from './touch-lines.tsx'

const sheets = [
  ['/', frameWords.check],
  ['/shelf', frameWords.shelf],
  ['/slate', frameWords.slate],
  ['/bench', frameWords.bench],
  ['/set-up', frameWords.setUp],
] as const

/** Of the sheet that was drawn last. */
let pathBefore: string | null = null

/** A sheet of drawing paper with its frame and title block, and the ways to the others. */
export function SheetFrame({
  title,
  lines = [],
  children,
}: {
  readonly title: string
  readonly lines?: readonly TitleLine[]
  readonly children: ReactNode
}): ReactNode {
  const [path] = useLocation()
  const { ground, unit, setGround, setUnit } = useChoices()
  const touch = useTouch()
  useEffect(() => {
    document.title = frameWords.title(title)
  }, [title])
  const main = useRef<HTMLElement>(null)
  useEffect(() => {
    const isGoneTo = pathBefore !== null && pathBefore !== path
    pathBefore = path
    // The link that was pressed is gone with its sheet; a field that wants the keys has them already.
    if (isGoneTo && main.current?.contains(document.activeElement) === false) {
      main.current.focus({ preventScroll: true })
    }
  }, [path])
  return (
    <div className={styles['board']}>
      <a href="#drawn" className={styles['skip']}>
        {frameWords.skip}
      </a>
      <nav className={styles['ways']} aria-label={frameWords.sheets}>
        <ul>
          {sheets.map(([to, word]) => (
            <li key={to}>
              <Link
                href={to}
                aria-current={path === to || path.startsWith(`${to}/`) ? 'page' : undefined}
                className={styles['way']}
              >
                {word}
              </Link>
            </li>
          ))}
        </ul>
      </nav>
      <div className={styles['sheet']}>
        <main ref={main} id="drawn" tabIndex={-1} aria-label={title} className={styles['drawn']}>
          {children}
        </main>
        <WaitingNote />
        <footer className={styles['foot']}>
          <div className={styles['choices']}>
            <WriterChoice />
            <WordChoice
              label={frameWords.masses}
              words={frameWords.units}
              value={unit}
              onChange={setUnit}
            />
            <WordChoice
              label={frameWords.ground}
              words={frameWords.grounds}
              value={ground}
              onChange={setGround}
            />
            <div className={styles['presses']}>
              {touch.session?.demo === true ? <DemoPress /> : null}
              {touch.session?.log_in_needed === true ? <LogOutPress /> : null}
            </div>
          </div>
          <TitleBlock title={title} lines={[...lines, ...touchLines(touch)]} />
        </footer>
      </div>
    </div>
  )
}
