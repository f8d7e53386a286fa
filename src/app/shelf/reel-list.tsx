import { memo, type ReactNode, useMemo, useState } from 'react'
import { Button } from 'react-aria-components'
import { Link } from 'wouter'
import type { ReelHeadJson } from '../../contract/index.ts'
import { formatIsoDay } from '../../units/index.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { VerdictRing } from '../drawing/verdict-ring.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { SaidFigure } from '../figure/said-figure.tsx'
import { shelfWords } from '../strings/shelf-words.ts'
import { showLength } from '../strings/show-figure.ts'
import type { ReelsShown } from './reel-discs.tsx'
import styles from './shelf.module.css'
import { materialOf, type ReelColumn, sortReels } from './sort-reels.ts'
import type { Clearing } from './use-clearing.ts'

const columns: readonly ReelColumn[] = [
  'id',
  'colour',
  'net',
  'length',
  'material',
  'make',
  'place',
  'weighed',
]

/** Reels as a table that its headings sort. */
export const ReelList: React.MemoExoticComponent<(shown: ReelsShown) => ReactNode> = memo(
  function ReelList({ reels, most, unit, clearing }) {
    const [by, setBy] = useState<{ readonly column: ReelColumn; readonly descending: boolean }>({
      column: 'net',
      descending: false,
    })
    const sorted = useMemo(() => sortReels(reels, by.column, by.descending), [reels, by])
    const sense = by.descending ? 'descending' : 'ascending'
    return (
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- wider than a phone, it is scrolled by keys
      <div className={styles['scroll']} tabIndex={0} role="region" aria-label={shelfWords.list}>
        <table className={styles['list']}>
          <thead>
            <tr>
              {columns.map((column) => (
                <th
                  key={column}
                  scope="col"
                  data-column={column}
                  aria-sort={by.column === column ? sense : 'none'}
                >
                  <Button
                    className={styles['heading'] ?? ''}
                    onPress={() =>
                      setBy({ column, descending: by.column === column && !by.descending })
                    }
                  >
                    {shelfWords.columns[column]}
                    <span aria-hidden="true">
                      {by.column === column ? (by.descending ? ' ↓' : ' ↑') : ''}
                    </span>
                  </Button>
                </th>
              ))}
              {clearing === null ? null : <th scope="col">{shelfWords.columns.verdict}</th>}
            </tr>
          </thead>
          <tbody>
            {sorted.slice(0, most).map(({ reel, net_g, length_mm, weighed_at, contradicted }) => (
              <tr key={reel.id}>
                <th scope="row">
                  <Link href={`/reel/${reel.id}`} className={styles['rowLink']}>
                    {reel.id}
                  </Link>
                  <Gone state={reel.state} />
                </th>
                <td data-column="colour">
                  <Swatch colour={reel.srgb} /> {reel.colour ?? shelfWords.noColour}
                </td>
                <td data-column="net">
                  {net_g === null ? shelfWords.unreckoned : <MassFigure mass={net_g} unit={unit} />}
                </td>
                <td data-column="length">
                  {length_mm === null ? '' : <SaidFigure said={showLength(length_mm)} />}
                </td>
                <td data-column="material">{shelfWords.material(materialOf(reel))}</td>
                <td data-column="make">{reel.make ?? shelfWords.noMake}</td>
                <td data-column="place">{reel.place ?? ''}</td>
                <td data-column="weighed">
                  {weighed_at === null ? shelfWords.never : formatIsoDay(weighed_at)}
                  {contradicted === null ? null : ` ${shelfWords.doubted}`}
                </td>
                {clearing === null ? null : (
                  <td data-column="verdict">{verdictOf(clearing.get(reel.id))}</td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    )
  },
)

const Gone = ({ state }: Pick<ReelHeadJson, 'state'>): ReactNode => {
  const word = shelfWords.gone(state)
  return word === null ? null : <span className={styles['gone']}> {word}</span>
}

const verdictOf = (one: Clearing | undefined): ReactNode =>
  one === undefined ? '' : <VerdictRing {...one} />
