import { useQuery } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { type CheckJson, changeCaution } from '../../contract/index.ts'
import type { PrintToCheck } from '../api/api.ts'
import { useApi } from '../api/use-api.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { VerdictRing } from '../drawing/verdict-ring.tsx'
import { MassFigure } from '../figure/mass-figure.tsx'
import { checkWords } from '../strings/check-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import type { MassUnit } from '../strings/show-figure.ts'
import styles from './check.module.css'

/** As many reels for the rest are named. */
const named = 3

/** Where changing reels is still safe, and which reels of the same material could go on from there. */
export function ChangeReel({
  print,
  question,
  check,
  reel,
  material,
  unit,
}: {
  readonly print: PrintToCheck
  /** As `Answered` has it. */
  readonly question: readonly unknown[]
  /** Of a print with one tool, that may not finish. */
  readonly check: CheckJson
  readonly reel: string
  readonly material: string | null
  readonly unit: MassUnit
}): ReactNode {
  const api = useApi()
  const layer = check.change_before?.layer ?? null
  const isAsked = layer !== null && layer < print.reading.layers.count
  const { data } = useQuery({
    queryKey: ['check-rest', ...question, layer, material],
    // The server lists so many of a large shelf: of this material alone the right ones are among them.
    queryFn: () =>
      api.checkShelf(print, { afterLayer: layer ?? 0, ...(material !== null && { material }) }),
    enabled: isAsked,
  })
  if (layer === null) {
    return check.verdict === 'short' ? (
      <p className={styles['change']}>{checkWords.noChange}</p>
    ) : null
  }
  if (!isAsked) return null
  const ranked = (data?.tools[0]?.reels ?? []).filter(
    // Of one whose facts do not agree nobody can say that it lasts.
    (one) => one.reel.id !== reel && one.verdict !== 'short' && one.contradicting.length === 0,
  )
  const alike = ranked.filter((one) => one.reel.material === material)
  const [best] = alike
  return (
    <section className={styles['change']} aria-label={checkWords.changing}>
      <h2>{checkWords.changing}</h2>
      <p role="status">
        {data === undefined
          ? checkWords.reckoning
          : checkWords.changeThen(
              layer,
              check.change_before?.height_mm ?? null,
              print.reading.layers.spiral,
              best === undefined ? null : { reel: best.reel.id, chance: best.chance },
            )}
      </p>
      {alike.length === 0 ? null : (
        <ul>
          {alike.slice(0, named).map(({ reel: head, verdict, chance, net_g }) => (
            <li key={head.id}>
              <VerdictRing verdict={verdict} chance={chance} />
              <span className={styles['stripMass']}>
                <MassFigure mass={net_g} unit={unit} />
              </span>
              <span className={styles['stripReel']}>
                <Swatch colour={head.srgb} />{' '}
                <Link href={`/reel/${head.id}`} className={styles['stripWay']}>
                  {head.id}
                </Link>{' '}
                {reelWords.colourAndMake(head)}
              </span>
            </li>
          ))}
        </ul>
      )}
      <p className={styles['small']}>{changeCaution}</p>
    </section>
  )
}
