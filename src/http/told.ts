import type { SaidRequest, WeighingTellJson } from '../contract/index.ts'
import type { Said, WeighingTold } from '../service/index.ts'

/** A weighing as the use cases take it. */
export const weighingOf = ({ last_place_g, ...told }: WeighingTellJson): WeighingTold => ({
  ...told,
  ...(last_place_g !== undefined && { lastPlace_g: last_place_g }),
})

/** What is said beside a fact. */
export const saidOf = ({ id, at, note }: SaidRequest): Said => ({
  ...(id !== undefined && { id }),
  ...(at !== undefined && { at }),
  ...(note !== undefined && { note }),
})
