import type { ReactNode } from 'react'
import { Button } from 'react-aria-components'
import type { RankedReelJson, ToolRankingJson, TwoReelsJson } from '../../contract/index.ts'
import type { ReelOfTool } from '../api/api.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { VerdictRing } from '../drawing/verdict-ring.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import type { RunningPrint } from '../running/running-prints.ts'
import { checkWords } from '../strings/check-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './check.module.css'
import { TwoReels } from './two-reels.tsx'

/** A measurement that settles a call more seldom than this is not worth its line. */
const worthTelling = 0.2

/** The reels of the shelf for each tool, best first; pressing one takes it. */
export function RankedReels({
  tools,
  two,
  leftOut,
  reels,
  running,
  unit,
  onTake,
}: {
  readonly tools: readonly ToolRankingJson[]
  readonly two: TwoReelsJson | null
  /** Of reels that are not judged, in words; nothing where there are none. */
  readonly leftOut: string
  readonly reels: readonly ReelOfTool[]
  readonly running: readonly RunningPrint[]
  readonly unit: MassUnit
  readonly onTake: (one: ReelOfTool) => void
}): ReactNode {
  const takenBy = (id: string): number | undefined => reels.find(({ reel }) => reel === id)?.tool
  const first = tools.length > 1 ? 4 : 8
  const strip = (tool: number, one: RankedReelJson): ReactNode => {
    const by = takenBy(one.reel.id)
    return (
      <li key={one.reel.id}>
        <Button
          aria-pressed={by === tool}
          isDisabled={by !== undefined && by !== tool}
          className={styles['strip'] ?? ''}
          onPress={() => onTake({ tool, reel: one.reel.id })}
        >
          <Strip
            one={one}
            runs={running.find(({ reels: on }) => on.some(({ reel }) => reel === one.reel.id))}
            unit={unit}
          />
        </Button>
        {one.contradicting.length === 0 ? null : (
          <p className={styles['next']}>{checkWords.disagrees(one.reel.id, one.contradicting)}</p>
        )}
        {one.verdict === 'close' && one.next !== null && one.next.settles >= worthTelling ? (
          <p className={styles['next']}>
            {checkWords.settles(one.next.instruction, one.next.settles)}
          </p>
        ) : null}
      </li>
    )
  }
  return (
    <div className={styles['others']}>
      <TwoReels two={two} />
      {leftOut === '' ? null : <p className={styles['small']}>{leftOut}</p>}
      {tools.map(({ tool, reels: ranked, enough, close, short }) => (
        <section key={tool}>
          <h2>{tools.length > 1 ? checkWords.reelsFor(tool) : checkWords.reels}</h2>
          <p className={styles['small']}>{checkWords.counts(enough, close, short)}</p>
          <ul>{ranked.slice(0, first).map((one) => strip(tool, one))}</ul>
          {ranked.length > first ? (
            <details className={styles['rest']}>
              <summary>{checkWords.more(ranked.length - first)}</summary>
              <ul>{ranked.slice(first).map((one) => strip(tool, one))}</ul>
            </details>
          ) : null}
        </section>
      ))}
    </div>
  )
}

const Strip = ({
  one: { reel, verdict, chance, net_g },
  runs,
  unit,
}: {
  readonly one: RankedReelJson
  /** The print that it is loaded for. */
  readonly runs: RunningPrint | undefined
  readonly unit: MassUnit
}): ReactNode => (
  <>
    <span className={styles['stripVerdict']}>
      <VerdictRing verdict={verdict} chance={chance} />
    </span>
    <span className={styles['stripMass']}>
      <MassFigure mass={net_g} unit={unit} />
    </span>
    <span className={styles['stripReel']}>
      <Swatch colour={reel.srgb} /> <b>{reel.id}</b> {reelWords.colourAndMake(reel)}
    </span>
    {runs === undefined ? null : (
      <span className={styles['stripRuns']}>{checkWords.runs(runs.file)}</span>
    )}
  </>
)
