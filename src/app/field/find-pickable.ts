/** One of those that can be picked. */
export interface Pickable {
  readonly id: string
  /** What it is called, whole: stands in the field once it is picked. */
  readonly name: string
  /** It is found by these too. */
  readonly words?: readonly string[]
  /** `#rrggbb` of filament, null where it is not known; no swatch where it is missing. */
  readonly colour?: string | null
}

const folded = (text: string): string =>
  text.normalize('NFC').trim().replaceAll(/\s+/g, ' ').toLowerCase()

/** Those in which every word typed occurs, in any case. */
export function findPickable(items: readonly Pickable[], typed: string): readonly Pickable[] {
  const wanted = folded(typed).split(' ').filter(Boolean)
  return items.filter(({ id, name, words = [] }) => {
    const hay = folded([id, name, ...words].join(' '))
    return wanted.every((word) => hay.includes(word))
  })
}

/** The one whose id, name or word is what is typed, in any case; the first of those called alike. */
export function namedPickable(items: readonly Pickable[], typed: string): Pickable | null {
  const wanted = folded(typed)
  const byWord = items.filter(({ words = [] }) => words.some((word) => folded(word) === wanted))
  return (
    items.find(({ id }) => folded(id) === wanted) ??
    items.find(({ name }) => folded(name) === wanted) ??
    (byWord.length === 1 ? (byWord[0] ?? null) : null)
  )
}

/** What is meant by words that were left standing: the one so named, else the only one they are found in. */
export function meantPickable(items: readonly Pickable[], typed: string): Pickable | null {
  const found = findPickable(items, typed)
  return namedPickable(items, typed) ?? (found.length === 1 ? (found[0] ?? null) : null)
}
