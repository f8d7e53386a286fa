import { type ReactNode, useState } from 'react'
import type { RankedReelJson } from '../../contract/index.ts'
import type { PrintToCheck } from '../api/api.ts'
import { Failure } from '../look/said.tsx'
import { checkWords } from '../strings/check-words.ts'
import styles from './check.module.css'
import { useFoundReels } from './use-found-reels.ts'

/** Drawn at once: the fullest come first. */
const most = 24

interface Props {
  readonly tool: number
  /** Those that stand in the list already. */
  readonly listed: readonly RankedReelJson[]
  readonly print: PrintToCheck
  /** As `RankedReels` has it. */
  readonly question: readonly unknown[]
  readonly material: string | null
  readonly strip: (one: RankedReelJson) => ReactNode
}

/** How many reels more are short, and those reels once somebody opens it; nothing where all are listed. */
export function ShortReels({ short, ...more }: Props & { readonly short: number }): ReactNode {
  const [isOpen, setOpen] = useState(false)
  const rest = short - more.listed.filter(({ verdict }) => verdict === 'short').length
  if (rest <= 0) return null
  return (
    <details
      className={styles['rest']}
      onToggle={({ currentTarget }) => setOpen(currentTarget.open)}
    >
      <summary>{checkWords.moreShort(rest)}</summary>
      {isOpen ? <Rest {...more} /> : null}
    </details>
  )
}

const allShort = { typed: '', call: 'short' } as const

const Rest = ({ tool, listed, print, question, material, strip }: Props): ReactNode => {
  const found = useFoundReels(print, question, allShort, material)
  if (found?.error)
    return (
      <p role="alert">
        <Failure of={found.error} />
      </p>
    )
  const all = found?.byTool?.get(tool)
  if (all === undefined) return <p role="status">{checkWords.reckoning}</p>
  const ids = new Set(listed.map(({ reel }) => reel.id))
  const others = all.filter(({ reel }) => !ids.has(reel.id))
  return (
    <>
      <ul>{others.slice(0, most).map(strip)}</ul>
      {others.length > most ? (
        <p className={styles['small']}>{checkWords.fullestShown(most)}</p>
      ) : null}
    </>
  )
}
