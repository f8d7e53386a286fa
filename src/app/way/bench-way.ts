/** Measurements that the bench has a form for, by the ids of `next`. */
const kinds: Readonly<Record<string, string>> = {
  weigh_reel: 'weigh',
  weigh_empty_carrier: 'carrier',
  calipers: 'calipers',
  weigh_cut_metre: 'cut',
}

/** Address of the bench's form for a measurement of a reel; null where it has none. */
export const benchWay = (measure: string, reel: string): string | null => {
  const kind = kinds[measure]
  return kind === undefined ? null : `/bench?reel=${encodeURIComponent(reel)}&measure=${kind}`
}
