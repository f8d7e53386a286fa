import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { RecordedJson, ReelChangeJson, ReelNowJson } from '../../contract/index.ts'
import { formatLinearDensity, type GramsPerMetre, measured } from '../../units/index.ts'
import { TableHead } from '../figure/table-head.tsx'
import { RecordedNotes } from '../recorded/recorded-notes.tsx'
import { benchWords } from '../strings/bench-words.ts'
import { type MassUnit, showLength, showMass } from '../strings/show-figure.ts'
import styles from './bench.module.css'

/** Drawn at once: a carrier may teach hundreds of reels. */
const most = 12

const figures: readonly (readonly [
  name: string,
  show: (now: ReelNowJson, unit: MassUnit) => string,
])[] = [
  [benchWords.net, ({ net_g }, unit) => showMass(net_g, unit)],
  [benchWords.length, ({ length_mm }) => showLength(length_mm)],
  [benchWords.tare, ({ tare_g }, unit) => showMass(tare_g, unit)],
  [
    benchWords.linearDensity,
    ({ linear_density_g_per_m: { value, u } }) =>
      formatLinearDensity(measured(value as GramsPerMetre, u)),
  ],
]

/** What was written down, and what changed of which reel. */
export const ChangedReels = ({
  answer,
  unit,
}: {
  readonly answer: RecordedJson
  readonly unit: MassUnit
}): ReactNode => (
  <div className={styles['changed']}>
    {answer.reels.slice(0, most).map((change) => (
      <ChangedReel key={change.reel} change={change} unit={unit} />
    ))}
    {answer.reels.length > most ? <p>{benchWords.andMore(answer.reels.length - most)}</p> : null}
    <RecordedNotes answer={answer} unit={unit} />
  </div>
)

const ChangedReel = ({
  change: { reel, name, before, now },
  unit,
}: {
  readonly change: ReelChangeJson
  readonly unit: MassUnit
}): ReactNode => {
  const rows = figures.flatMap(([figure, show]) => {
    const [was, is] = [before && show(before, unit), now && show(now, unit)]
    // The net is what everybody looks for, changed or not.
    return was === is && figure !== benchWords.net ? [] : [{ figure, was, is }]
  })
  return (
    <table className={styles['change']}>
      <caption>
        <Link href={`/reel/${reel}`}>{reel}</Link> {name}
      </caption>
      <TableHead spoken headings={benchWords.changeHeadings} />
      <tbody>
        {rows.map(({ figure, was, is }) => (
          <tr key={figure}>
            <th scope="row">{figure}</th>
            <td>{was ?? benchWords.nothing}</td>
            <td>
              <span aria-hidden="true">→ </span>
              <b>{is ?? benchWords.nothing}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
