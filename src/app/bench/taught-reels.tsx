import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { Link } from 'wouter'
import type { RecordedJson, ReelListJson } from '../../contract/index.ts'
import { useApi } from '../api/use-api.ts'
import { TableHead } from '../figure/table-head.tsx'
import { type MassUnit, showMass } from '../strings/show-figure.ts'
import { workWords } from '../strings/work-words.ts'
import styles from './bench.module.css'

/** Drawn at once. */
const most = 20

/** Reels that were not spoken of and are known otherwise all the same. */
export function TaughtReels({
  before,
  answer,
  unit,
}: {
  /** The shelf as it was. */
  readonly before: ReelListJson | null
  readonly answer: RecordedJson
  readonly unit: MassUnit
}): ReactNode {
  const api = useApi()
  const { data, isFetching } = useQuery({ queryKey: ['shelf'], queryFn: () => api.shelf() })
  if (before === null || data === undefined || isFetching) return <p>{workWords.looking}</p>
  const spoken = new Set(answer.reels.map(({ reel }) => reel))
  const was = new Map(before.reels.map((one) => [one.reel.id, one.net_g]))
  const taught = data.reels.flatMap(({ reel, net_g }) => {
    const before_g = was.get(reel.id)
    if (spoken.has(reel.id) || net_g === null || before_g == null) return []
    const [old, now] = [showMass(before_g, unit), showMass(net_g, unit)]
    return old === now ? [] : [{ reel, old, now }]
  })
  if (taught.length === 0) return <p>{workWords.taughtNone}</p>
  return (
    <table className={styles['change']}>
      <caption>{workWords.taught(taught.length)}</caption>
      <TableHead spoken headings={workWords.taughtHeadings} />
      <tbody>
        {taught.slice(0, most).map(({ reel, old, now }) => (
          <tr key={reel.id}>
            <th scope="row">
              <Link href={`/reel/${reel.id}`}>{reel.id}</Link> {reel.colour}
            </th>
            <td>{old}</td>
            <td>
              <span aria-hidden="true">→ </span>
              <b>{now}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
