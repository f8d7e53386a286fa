import type { FactJson } from '../contract/index.ts'
import { filamentOfReel, type ReelBelief } from '../estimate/index.ts'
import type { ReelCard } from '../ledger/index.ts'
import { isDensityOfMaterialTold } from './density-of-material.ts'
import type { Rest } from './reel-working.ts'
import type { ShelfView } from './shelf-view.ts'

/** Density and diameter of a reel's filament, each with what it rests on. */
export const filamentRests = (
  { standing, estimate, cards }: Pick<ShelfView, 'standing' | 'estimate' | 'cards'>,
  { id, opened }: ReelCard,
  belief: ReelBelief,
): readonly Rest[] => {
  const { density, diameter, isDensityUsual, isDiameterUsual } = filamentOfReel(
    estimate,
    id,
    belief,
  )
  const measured = standing.facts.filter((fact) => fact.kind === 'measured')
  const isOfMake = (reel: string): boolean => cards.get(reel)?.opened.make === opened.make
  /** What was measured of this reel, or else of others of its make, in words. */
  const seen = (words: readonly (readonly [string, (fact: Measured) => boolean])[]): Words => {
    const told = (facts: readonly Measured[]): readonly string[] =>
      words.flatMap(([word, isIn]) => (facts.some(isIn) ? [word] : []))
    const own = told(measured.filter(({ reel }) => reel === id))
    if (own.length > 0) return own
    return told(measured.filter(({ reel }) => reel !== id && isOfMake(reel))).map(
      (word) => `${word}, on another reel of its make`,
    )
  }
  const isStated = standing.facts.some(
    (fact) =>
      fact.kind === 'data-sheet' &&
      fact.make === opened.make &&
      fact.density_g_per_cm3 !== undefined,
  )
  const ofDensity = [
    ...seen([
      ['given for it', (fact) => fact.density_g_per_cm3 !== undefined],
      ['a piece in air and in water', (fact) => fact.immersion !== undefined],
    ]),
    ...(isStated ? ['what its maker states'] : []),
    ...(isDensityOfMaterialTold(estimate, id) ? ['what is told of its material'] : []),
  ]
  const guessOf = (which: 'density' | 'diameter'): string =>
    belief.assumed.find((one) => one.id === which)?.what ??
    (which === 'density' ? 'usual for its material' : 'usual for its nominal diameter')
  const rest = (
    which: 'density' | 'diameter',
    value: Rest['value'],
    on: Words,
    isUsual: boolean,
  ): Rest => {
    const guessed = on.length === 0 && isUsual
    return {
      id: which,
      value,
      on: guessed
        ? `guessed: ${guessOf(which)}`
        : on.length > 0
          ? on.join(', ')
          : 'learnt from what was weighed of its make',
      guessed,
    }
  }
  return [
    rest('density', density, ofDensity, isDensityUsual),
    rest(
      'diameter',
      diameter,
      seen([['calipers', (fact) => fact.calipers !== undefined]]),
      isDiameterUsual,
    ),
  ]
}

type Measured = Extract<FactJson, { readonly kind: 'measured' }>
type Words = readonly string[]
