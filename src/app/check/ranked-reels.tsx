import { type ReactNode, useState } from 'react'
import { Button } from 'react-aria-components'
import type {
  RankedReelJson,
  ToolCheckJson,
  ToolRankingJson,
  TwoReelsJson,
} from '../../contract/index.ts'
import type { PrintToCheck, ReelOfTool } from '../api/api.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { VerdictRing } from '../drawing/verdict-ring.tsx'
import { WordChoice } from '../field/word-choice.tsx'
import { WordsField } from '../field/words-field.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { Failure, Said } from '../look/said.tsx'
import type { RunningPrint } from '../running/running-print.ts'
import { checkWords } from '../strings/check-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './check.module.css'
import { ShortReels } from './short-reels.tsx'
import { asAnswered, chanceRanked } from './told-chance.ts'
import { TwoReels } from './two-reels.tsx'
import { type ReelsFound, type ReelsWanted, useFoundReels } from './use-found-reels.ts'

/** A measurement that settles a call more seldom than this is not worth its line. */
const worthTelling = 0.2

/** The reels of the shelf for each tool, best first; pressing one takes it. */
export function RankedReels({
  tools,
  two,
  leftOut,
  reels,
  supposed,
  running,
  print,
  question,
  material,
  unit,
  onTake,
}: {
  readonly tools: readonly ToolRankingJson[]
  readonly two: TwoReelsJson | null
  /** Of reels that are not judged. */
  readonly leftOut: ReactNode
  readonly reels: readonly ReelOfTool[]
  /** By the id of a reel what is answered, where something is supposed of it. */
  readonly supposed: ReadonlyMap<string, ToolCheckJson>
  readonly running: readonly RunningPrint[]
  readonly print: PrintToCheck
  /** What sets one question of a print apart from another: part of the key of all its answers. */
  readonly question: readonly unknown[]
  /** Id of the one material that is listed; null of all. */
  readonly material: string | null
  readonly unit: MassUnit
  readonly onTake: (one: ReelOfTool) => void
}): ReactNode {
  const [wanted, setWanted] = useState<ReelsWanted>({ typed: '', call: 'any' })
  const found = useFoundReels(print, question, wanted, material)
  const takenBy = (id: string): number | undefined => reels.find(({ reel }) => reel === id)?.tool
  const first = tools.length > 1 ? 4 : 8
  const strip = (tool: number, ranked: RankedReelJson): ReactNode => {
    const one = asAnswered(ranked, supposed.get(ranked.reel.id))
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
          <p className={styles['next']}>
            <Said>{checkWords.disagrees(one.reel.id, one.contradicting)}</Said>
          </p>
        )}
        {one.verdict === 'close' && one.next !== null && one.next.settles >= worthTelling ? (
          <p className={styles['next']}>
            <Said>{checkWords.settles(one.next.instruction, one.next.settles)}</Said>
          </p>
        ) : null}
      </li>
    )
  }
  const isLong = tools.some((one) => one.enough + one.close + one.short > first)
  return (
    <div className={styles['others']}>
      <TwoReels two={two} />
      {isLong ? (
        <div className={styles['findReel']}>
          <WordsField
            label={checkWords.find}
            hint={checkWords.findHint}
            value={wanted.typed}
            onChange={(typed) => setWanted({ ...wanted, typed })}
          />
          <WordChoice
            label={checkWords.findCall}
            words={checkWords.findCalls}
            value={wanted.call}
            onChange={(call) => setWanted({ ...wanted, call })}
          />
        </div>
      ) : null}
      {leftOut}
      {tools.map(({ tool, reels: ranked, enough, close, short }) => (
        <section key={tool}>
          <h2>{tools.length > 1 ? checkWords.reelsFor(tool) : checkWords.reels}</h2>
          <p className={styles['small']}>{checkWords.counts(enough, close, short)}</p>
          {found === null ? (
            <>
              <ul>{ranked.slice(0, first).map((one) => strip(tool, one))}</ul>
              {ranked.length > first ? (
                <details className={styles['rest']}>
                  <summary>{checkWords.more(ranked.length - first)}</summary>
                  <ul>{ranked.slice(first).map((one) => strip(tool, one))}</ul>
                </details>
              ) : null}
              {enough + close > ranked.length ? (
                <p className={styles['small']}>{checkWords.notListed(ranked.length)}</p>
              ) : null}
              <ShortReels
                short={short}
                tool={tool}
                listed={ranked}
                print={print}
                question={question}
                material={material}
                strip={(one) => strip(tool, one)}
              />
            </>
          ) : (
            <FoundReels found={found} tool={tool} strip={(one) => strip(tool, one)} />
          )}
        </section>
      ))}
    </div>
  )
}

/** Drawn at once: more would make each key wait. */
const mostFound = 24

const FoundReels = ({
  found: { byTool, error },
  tool,
  strip,
}: {
  readonly found: ReelsFound
  readonly tool: number
  readonly strip: (one: RankedReelJson) => ReactNode
}): ReactNode => {
  if (error !== null)
    return (
      <p role="alert">
        <Failure of={error} />
      </p>
    )
  if (byTool === null) return <p role="status">{checkWords.reckoning}</p>
  const all = byTool.get(tool) ?? []
  return (
    <>
      <p role="status" className={styles['small']}>
        {checkWords.found(all.length, mostFound)}
      </p>
      <ul>{all.slice(0, mostFound).map(strip)}</ul>
    </>
  )
}

const Strip = ({
  one,

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
      <VerdictRing verdict={one.verdict} chance={chanceRanked(one)} />
    </span>
    <span className={styles['stripMass']}>
      <MassFigure mass={one.net_g} unit={unit} />
    </span>
    <span className={styles['stripReel']}>
      <Swatch colour={one.reel.srgb} /> <b>{one.reel.id}</b> {reelWords.colourAndMake(one.reel)}
    </span>
    {runs === undefined ? null : (
      <span className={styles['stripRuns']}>{checkWords.runs(runs.file)}</span>
    )}
  </>
)
