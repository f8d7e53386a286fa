import type {
  ReelAskedJson,
  ReelTellJson,
  SaidRequest,
  WeighingTellJson,
} from '../contract/index.ts'
import type { ReelForTool, ReelOfPerson, ReelTold, Said, WeighingTold } from '../service/index.ts'

/** A weighing as the use cases take it. */
export const weighingOf = ({ last_place_g, ...told }: WeighingTellJson): WeighingTold => ({
  ...told,
  ...(last_place_g !== undefined && { lastPlace_g: last_place_g }),
})

/** A reel that is on no shelf as the use cases take it. */
export const personsReelOf = ({
  gross,
  gross_when_new: whenNew,
  own_carrier: own,
  empty_carrier: another,
  is_new: isNew,
  calipers,
  cut,
  ...told
}: ReelTellJson & { readonly tool?: number }): ReelOfPerson => ({
  ...told,
  ...(gross && { gross: weighingOf(gross) }),
  ...(whenNew && { grossWhenNew: weighingOf(whenNew) }),
  ...(own && { ownCarrier: weighingOf(own) }),
  ...(another && { emptyCarrier: weighingOf(another) }),
  ...(isNew !== undefined && { isNew }),
  ...(calipers && calipersOf(calipers)),
  ...(cut && { cut: { ...cut, weighing: weighingOf(cut.weighing) } }),
})

const calipersOf = ({
  u_mm,
  ...calipers
}: NonNullable<ReelTellJson['calipers']>): Pick<ReelTold, 'calipers' | 'calipersU_mm'> => ({
  calipers,
  ...(u_mm !== undefined && { calipersU_mm: u_mm }),
})

/** A reel for a tool of a print as the use cases take it. */
export const reelForToolOf = (one: ReelAskedJson): ReelForTool => {
  if (!('reel' in one)) return personsReelOf(one)
  const { weighing, empty_carrier: carrier, cut, ...named } = one
  return {
    ...named,
    ...(weighing && { weighing: weighingOf(weighing) }),
    ...(carrier && { emptyCarrier: weighingOf(carrier) }),
    ...(cut && { cut: { ...cut, weighing: weighingOf(cut.weighing) } }),
  }
}

/** What is said beside a fact. */
export const saidOf = ({ id, at, note }: SaidRequest): Said => ({
  ...(id !== undefined && { id }),
  ...(at !== undefined && { at }),
  ...(note !== undefined && { note }),
})
