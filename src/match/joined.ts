/**
 * Groups that have a key in common put together.
 *
 * @returns what has nothing in common with a later group first
 */
export const joined = <Item>(
  groups: Iterable<readonly Item[]>,
  keysOf: (item: Item) => readonly (string | number)[],
): readonly (readonly Item[])[] => {
  let all: { readonly items: readonly Item[]; readonly keys: ReadonlySet<string | number> }[] = []
  for (const items of groups) {
    const keys: ReadonlySet<string | number> = new Set(items.flatMap(keysOf))
    const [meets, apart] = [
      all.filter((group) => !group.keys.isDisjointFrom(keys)),
      all.filter((group) => group.keys.isDisjointFrom(keys)),
    ]
    all = [
      ...apart,
      {
        items: [...meets.flatMap((group) => group.items), ...items],
        keys: meets.reduce((sum, group) => sum.union(group.keys), keys),
      },
    ]
  }
  return all.map(({ items }) => items)
}
