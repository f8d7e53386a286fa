import type { ReactNode } from 'react'
import { Link } from 'wouter'
import { changeCaution, type TwoReelsJson } from '../../contract/index.ts'
import { Swatch } from '../drawing/swatch.tsx'
import { checkWords } from '../strings/check-words.ts'
import { reelWords } from '../strings/reel-words.ts'
import styles from './check.module.css'

/** Two reels that do a print together where none does it alone. */
export function TwoReels({ two }: { readonly two: TwoReelsJson | null }): ReactNode {
  if (two === null) return null
  const { first, second, after_layer, height_mm } = two
  return (
    <section>
      <h2>{checkWords.twoReels}</h2>
      <p>
        <Swatch colour={first.srgb} /> <b>{first.id}</b> {reelWords.colourAndMake(first)},{' '}
        {checkWords.upToLayer(after_layer, height_mm)}
      </p>
      <p>
        <Swatch colour={second.srgb} /> <b>{second.id}</b> {reelWords.colourAndMake(second)},{' '}
        {checkWords.fromLayer(after_layer + 1)}
      </p>
      <p className={styles['small']}>
        {changeCaution} <Link href="/slate">{checkWords.planChange}</Link>
      </p>
    </section>
  )
}
