import type { WeighingTellJson } from '../../contract/index.ts'
import type { Posting } from '../recorded/use-posting.ts'

/** What a person makes of a weighing that surprises. */
export type SurpriseAnswer =
  /** It holds. */
  | { readonly kind: 'take' }
  /** It was another reel: it is posted of that one, tested as any. */
  | { readonly kind: 'reel'; readonly reel: string }
  /** It was typed in other units: that figure is posted. */
  | { readonly kind: 'figure'; readonly reading_g: number }

/** What may be another of a weighing that was posted. */
export interface Weighed {
  readonly reel?: string
  readonly weighing?: WeighingTellJson
  readonly accept?: boolean
}

/** Posts what a person makes of the weighing that was posted last. */
export const settleSurprise = <T extends Weighed>(
  { told, post, take }: Pick<Posting<T>, 'told' | 'post' | 'take'>,
  said: SurpriseAnswer,
): void => {
  if (told === null) return
  if (said.kind === 'take') take()
  else if (said.kind === 'reel') post({ ...told, reel: said.reel })
  else post({ ...told, weighing: shownAs(told.weighing, said.reading_g) })
}

/** The same figures in another unit: as fine as they are, they are fine in that one. */
const shownAs = (told: WeighingTellJson | undefined, reading_g: number): WeighingTellJson => {
  const { u_g, last_place_g, ...rest } = told ?? {}
  const times = told === undefined ? 1 : reading_g / told.reading_g
  return {
    ...rest,
    reading_g,
    ...(u_g !== undefined && { u_g: u_g * times }),
    ...(last_place_g !== undefined && { last_place_g: last_place_g * times }),
  }
}
