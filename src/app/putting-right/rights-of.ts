/** What can be put right of a fact; nothing: it did not happen. */
export type Right = 'nothing' | 'mass' | 'length' | 'layer' | 'reel' | 'label' | 'price' | 'lot'

/** What of a reel's fact can be another, by the fact's kind; the likeliest first. */
export const rightsOf: Readonly<Record<string, readonly Right[]>> = {
  opened: ['price', 'lot', 'label', 'mass', 'nothing'],
  weighed: ['mass', 'reel', 'nothing'],
  'carrier-weighed': ['mass', 'reel', 'nothing'],
  drew: ['nothing', 'layer', 'length', 'reel'],
  trimmed: ['mass', 'length', 'reel', 'nothing'],
  measured: ['nothing', 'reel'],
  emptied: ['nothing', 'reel'],
  'ran-dry': ['nothing', 'reel'],
  dried: ['nothing', 'reel'],
  moved: ['nothing', 'reel'],
  retired: ['nothing', 'reel'],
}
