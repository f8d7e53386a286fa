import type { ListedReelJson, ReelHeadJson } from '../../contract/index.ts'

/** What a list of reels can be sorted by. */
export type ReelColumn =
  | 'id'
  | 'make'
  | 'material'
  | 'colour'
  | 'place'
  | 'net'
  | 'length'
  | 'weighed'

/** What its material is called; its id in an answer that was kept before names were told. */
export const materialOf = ({ material_name, material }: ReelHeadJson): string | null =>
  material_name ?? material

const keyOf: Readonly<Record<ReelColumn, (one: ListedReelJson) => string | number | null>> = {
  id: ({ reel }) => reel.id,
  make: ({ reel }) => reel.make,
  material: ({ reel }) => materialOf(reel),
  colour: ({ reel }) => reel.colour,
  place: ({ reel }) => reel.place,
  net: ({ net_g }) => net_g?.value ?? null,
  length: ({ length_mm }) => length_mm?.value ?? null,
  weighed: ({ weighed_at }) => weighed_at,
}

const compare = new Intl.Collator('en-GB', { numeric: true }).compare

/** Reels by one column; what is not known comes last either way. */
export function sortReels(
  reels: readonly ListedReelJson[],
  column: ReelColumn,
  descending = false,
): readonly ListedReelJson[] {
  const key = keyOf[column]
  const sign = descending ? -1 : 1
  return reels.toSorted((one, other) => {
    const [a, b] = [key(one), key(other)]
    if (a === null || b === null) return Number(a === null) - Number(b === null)
    if (typeof a === 'number' && typeof b === 'number') return sign * (a - b)
    return sign * compare(String(a), String(b))
  })
}

const isGone = ({ reel: { state } }: ListedReelJson): boolean =>
  state === 'empty' || state === 'retired'

/** Shelves of one material each, by its name, the emptiest reel first and those that are gone last. */
export function shelvesOf(
  reels: readonly ListedReelJson[],
): readonly (readonly [material: string | null, reels: readonly ListedReelJson[]])[] {
  const sorted = sortReels(reels, 'net').toSorted(
    (one, other) => Number(isGone(one)) - Number(isGone(other)),
  )
  // Two of the same name are two materials.
  return [...Map.groupBy(sorted, ({ reel }) => reel.material).values()]
    .map((on) => [materialOf(on[0]!.reel), on] as const)
    .toSorted(([a], [b]) =>
      a === null || b === null ? Number(a === null) - Number(b === null) : compare(a, b),
    )
}

/** How many reels of which material come after the first so many, shelf by shelf. */
export function shelvesBehind(
  reels: readonly ListedReelJson[],
  drawn: number,
): readonly (readonly [material: string | null, count: number])[] {
  let room = drawn
  return shelvesOf(reels).flatMap(([material, on]) => {
    const behind = on.length - Math.min(room, on.length)
    room -= on.length - behind
    return behind === 0 ? [] : [[material, behind] as const]
  })
}
