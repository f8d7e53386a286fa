import { lazy, type ReactNode, Suspense, useMemo } from 'react'
import type { ReelLifeJson, ReelShowJson } from '../../contract/index.ts'
import { formatIsoMinute } from '../../units/index.ts'
import { MassFigure } from '../figure/mass-figure.tsx'
import { Said } from '../look/said.tsx'
import { reelWords } from '../strings/reel-words.ts'
import { type MassUnit, showMass } from '../strings/show-figure.ts'
import { plotHeight } from './plot-height.ts'
import styles from './reel.module.css'

const LifePlot = lazy(async () => ({ default: (await import('./life-plot.tsx')).LifePlot }))

const seconds = (moment: string): number => Date.parse(moment) / 1000

/** A reel's life as a line, told in a sentence, and as a table. */
export function LifeChart({
  life,
  reel,
  unit,
  onPick,
}: {
  readonly life: ReelLifeJson
  readonly reel: ReelShowJson
  readonly unit: MassUnit
  /** Told a moment of its life that is to be looked at. */
  readonly onPick: (at: string) => void
}): ReactNode {
  const drawn = useMemo(() => drawnOf(life, reel), [life, reel])
  const [first, last] = [life.line[0], life.line.at(-1)]
  if (first === undefined || last === undefined) return <p>{reelWords.noLife}</p>
  const kinds = Object.entries(reelWords.kinds).flatMap(([kind, names]) => {
    const count = life.marks.filter((mark) => mark.kind === kind).length
    return count === 0 ? [] : [reelWords.count(count, names)]
  })
  const whatOf = (fact: string): string => reel.facts.find((one) => one.id === fact)?.what ?? ''
  return (
    <>
      <p className={styles['summary']}>
        {reelWords.lifeSummary(showMass(first.net_g, unit), showMass(last.net_g, unit), kinds)}
      </p>
      <figure
        className={styles['plot']}
        style={{ minBlockSize: plotHeight }}
        aria-label={reelWords.lifeDrawing}
      >
        <Suspense fallback={null}>
          <LifePlot
            line={drawn.line}
            marks={drawn.marks}
            unit={unit}
            onPick={(at) => onPick(new Date(at * 1000).toISOString())}
          />
        </Suspense>
      </figure>
      <details>
        <summary>{reelWords.lifeTable}</summary>
        <table className={styles['lifeTable']}>
          <thead>
            <tr>
              {reelWords.lifeColumns.map((column) => (
                <th key={column} scope="col">
                  {column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {life.marks.map(({ fact, at, net_g }) => (
              <tr key={fact}>
                <td>
                  <time dateTime={at}>{formatIsoMinute(at)}</time>
                </td>
                <td>
                  <MassFigure mass={net_g} unit={unit} />
                </td>
                <td>
                  <Said>{whatOf(fact)}</Said>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </>
  )
}

const drawnOf = ({ line, marks }: ReelLifeJson, { facts }: ReelShowJson) => {
  const known = new Set(marks.map(({ fact }) => fact))
  return {
    line: line.map(({ at, net_g }) => ({ at: seconds(at), net_g })),
    marks: [
      ...marks.map(({ at, kind, net_g }) => ({ at: seconds(at), kind, net_g: net_g.value })),
      ...facts
        .filter(({ id, voided }) => !known.has(id) && voided === null)
        .map(({ at, kind }) => ({ at: seconds(at), kind, net_g: null })),
    ],
  }
}
