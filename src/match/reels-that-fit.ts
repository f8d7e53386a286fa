import { DomainError } from '../units/index.ts'

/** Which colours will do. */
export type ColourRule =
  | { readonly kind: 'exact'; readonly colour: string }
  | { readonly kind: 'any_of'; readonly colours: readonly string[] }
  | { readonly kind: 'any' }

/** What a tool of a print wants of its filament. */
export interface FilamentWanted {
  /** Id of the material; null where any will do. */
  readonly material: string | null
  /** Nominal, mm. */
  readonly diameter_mm: number
  readonly colour: ColourRule
}

/** What a reel is, as far as a print asks. */
export interface ReelTraits {
  readonly id: string
  /** Id of the material; null where nobody has said: it then fits nothing that asks for one. */
  readonly material: string | null
  /** Nominal, mm. */
  readonly diameter_mm: number
  /** Null where nobody has said: it then fits only where the colour is no matter. */
  readonly colour: string | null
}

/** The reels a tool may take, and those it might if the colour were no matter. */
export interface FittingReels {
  readonly fits: readonly string[]
  readonly inAnyColour: readonly string[]
}

/** Nominal diameters this near are the same: 1.75 and 2.85 are the common ones. */
const sameDiameter_mm = 0.05

/**
 * Which reels are of the right material, diameter and colour. Names are the same when they are apart
 * from capitals and white space.
 *
 * @throws DomainError `no_colour` for a rule that no colour can meet
 */
export const reelsThatFit = (
  { material, diameter_mm, colour }: FilamentWanted,
  reels: readonly ReelTraits[],
): FittingReels => {
  const colours = coloursOf(colour)
  const alike = reels.filter(
    (reel) =>
      Math.abs(reel.diameter_mm - diameter_mm) < sameDiameter_mm &&
      (material === null || (reel.material !== null && plain(reel.material) === plain(material))),
  )
  const right = alike.filter(
    (reel) => colours === null || (reel.colour !== null && colours.has(plain(reel.colour))),
  )
  return { fits: right.map(({ id }) => id), inAnyColour: alike.map(({ id }) => id) }
}

/** The names that will do; null for any. */
const coloursOf = (rule: ColourRule): ReadonlySet<string> | null => {
  if (rule.kind === 'any') return null
  const names = rule.kind === 'exact' ? [rule.colour] : rule.colours
  if (names.length === 0) throw new DomainError('no_colour', 'a rule names no colour that will do')
  return new Set(names.map(plain))
}

const plain = (name: string): string => name.trim().replaceAll(/\s+/g, ' ').toLowerCase()
