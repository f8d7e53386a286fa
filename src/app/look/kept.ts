const prefix = 'reelreckon-'

/** What the browser did not keep: it holds until the page is left. */
const held = new Map<string, string>()

/** What this browser kept under a name; null where it kept nothing. */
export function kept(name: string): string | null {
  try {
    return held.get(name) ?? localStorage.getItem(prefix + name)
  } catch {
    // A browser may refuse to keep anything.
    return null
  }
}

/** Whether what is kept under a name outlives the page. */
export const isKept = (name: string): boolean => !held.has(name)

/** Keeps a value under a name; where the browser does not, until the page is left. */
export function keep(name: string, value: string): void {
  try {
    localStorage.setItem(prefix + name, value)
    held.delete(name)
  } catch {
    held.set(name, value)
  }
}

/** Forgets whatever this browser kept but under these names. */
export function forgetBut(names: readonly string[]): void {
  const stays = new Set(names.map((name) => prefix + name))
  for (const name of held.keys()) if (!stays.has(prefix + name)) held.delete(name)
  try {
    for (const key of Object.keys(localStorage)) {
      if (key.startsWith(prefix) && !stays.has(key)) localStorage.removeItem(key)
    }
  } catch {
    // Nothing is kept.
  }
}
