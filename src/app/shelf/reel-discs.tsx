import { memo, type ReactNode, useMemo } from 'react'
import { Link } from 'wouter'
import type { ListedReelJson } from '../../contract/index.ts'
import { discScale, reelDrawn } from '../drawing/carrier-size.ts'
import { ReelDisc } from '../drawing/reel-disc.tsx'
import { VerdictRing } from '../drawing/verdict-ring.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { drawingWords } from '../strings/drawing-words.ts'
import { shelfWords } from '../strings/shelf-words.ts'
import { type MassUnit, showLength } from '../strings/show-figure.ts'
import styles from './shelf.module.css'
import { shelvesOf } from './sort-reels.ts'
import type { Clearing } from './use-clearing.ts'

/** As narrow as the stylesheet lets a column be, px. */
const column = 104

/** What a view of reels is given. */
export interface ReelsShown {
  readonly reels: readonly ListedReelJson[]
  /** How many are drawn. */
  readonly most: number
  readonly unit: MassUnit
  /** What each is for the print at hand; null without one. */
  readonly clearing: ReadonlyMap<string, Clearing> | null
}

/** Reels from the side on shelves of their materials, all to one scale, stubs first. */
export const ReelDiscs: React.MemoExoticComponent<(shown: ReelsShown) => ReactNode> = memo(
  function ReelDiscs({ reels, most, unit, clearing }) {
    const shelves = useMemo(() => shelvesOf(reels), [reels])
    const px_per_mm = useMemo(
      () => discScale(reels.map(({ wound, net_g }) => reelDrawn(wound, net_g).carrier)),
      [reels],
    )
    let room = most
    const drawnShelves = shelves.map(([material, on]) => {
      const drawn = on.slice(0, room)
      room -= drawn.length
      if (drawn.length === 0) return null
      return (
        <section key={drawn[0]?.reel.material} className={styles['shelf']}>
          <h2>{shelfWords.shelfOf(material, on.length)}</h2>
          <ul className={styles['discs']}>
            {drawn.map((one) => (
              <Disc
                key={one.reel.id}
                one={one}
                unit={unit}
                px_per_mm={px_per_mm}
                clearing={clearing?.get(one.reel.id) ?? null}
              />
            ))}
          </ul>
        </section>
      )
    })
    return (
      <>
        {drawnShelves}
        {reels.length === 0 ? null : <p className={styles['scale']}>{drawingWords.discs}</p>}
      </>
    )
  },
)

const Disc = memo(function Disc({
  one: { reel, net_g, length_mm, wound, contradicted },
  unit,
  px_per_mm,
  clearing,
}: {
  readonly one: ListedReelJson
  readonly unit: MassUnit
  readonly px_per_mm: number
  readonly clearing: Clearing | null
}): ReactNode {
  const gone = shelfWords.gone(reel.state)
  const drawn = reelDrawn(wound, net_g)
  return (
    <li data-wide={drawn.carrier.flange_mm * px_per_mm > column}>
      <Link href={`/reel/${reel.id}`} className={styles['disc']}>
        <ReelDisc net_g={net_g} colour={reel.srgb} drawn={drawn} px_per_mm={px_per_mm} />
        <span className={styles['words']}>
          <b>{reel.id}</b>
          <span className={styles['colour']}>{reel.colour ?? shelfWords.noColour}</span>
          {net_g === null ? (
            <span>{shelfWords.unreckoned}</span>
          ) : (
            <MassFigure mass={net_g} unit={unit} />
          )}
          {length_mm === null ? null : (
            <span className={styles['length']}>{showLength(length_mm)}</span>
          )}
          {gone === null ? null : <span className={styles['gone']}>{gone}</span>}
          {contradicted === null ? null : (
            <span className={styles['doubted']}>{shelfWords.doubted}</span>
          )}
          {clearing === null ? null : (
            <span className={styles['forPrint']}>
              <VerdictRing {...clearing} stacked />
            </span>
          )}
        </span>
      </Link>
    </li>
  )
})
