/** What can be put right of a fact; nothing: it did not happen. */
export type Right =
  | 'nothing'
  | 'mass'
  | 'beside'
  | 'length'
  | 'stop'
  | 'reel'
  | 'make'
  | 'label'
  | 'state'
  | 'colour'
  | 'price'
  | 'lot'

/** A fact, as far as what can be put right of it hangs on it. */
export interface WrongFact {
  readonly kind: string
  /** False of what was weighed, or told, of a make alone. */
  readonly isOfReel: boolean
}

/** What of a fact can be another; the likeliest first. */
export const rightsOf = ({ kind, isOfReel }: WrongFact): readonly Right[] =>
  (isOfReel ? ofReels : ofMakes)[kind] ?? ['nothing']

const ofReels: Readonly<Record<string, readonly Right[]>> = {
  opened: ['label', 'state', 'make', 'colour', 'price', 'lot', 'mass', 'beside', 'nothing'],
  weighed: ['mass', 'beside', 'reel', 'nothing'],
  'carrier-weighed': ['mass', 'beside', 'reel', 'nothing'],
  drew: ['nothing', 'stop', 'length', 'reel'],
  trimmed: ['mass', 'length', 'reel', 'nothing'],
  measured: ['nothing', 'reel'],
  emptied: ['nothing', 'reel'],
  'ran-dry': ['nothing', 'reel'],
  dried: ['nothing', 'reel'],
  moved: ['nothing', 'reel'],
  retired: ['nothing', 'reel'],
}

const ofMakes: Readonly<Record<string, readonly Right[]>> = {
  'carrier-weighed': ['mass', 'beside', 'make', 'label', 'reel', 'nothing'],
  'data-sheet': ['nothing', 'make'],
}
