const prefix = 'reelreckon-'

/** What this browser kept under a name; null where it kept, or keeps, nothing. */
export function kept(name: string): string | null {
  try {
    return localStorage.getItem(prefix + name)
  } catch {
    // A browser may refuse to keep anything.
    return null
  }
}

/** Keeps a value under a name, where the browser does. */
export function keep(name: string, value: string): void {
  try {
    localStorage.setItem(prefix + name, value)
  } catch {
    // Holds until the page is left.
  }
}

/** Forgets whatever this browser kept but under these names. */
export function forgetBut(names: readonly string[]): void {
  const stays = new Set(names.map((name) => prefix + name))
  try {
    for (const key of Object.keys(localStorage)) {
      if (key.startsWith(prefix) && !stays.has(key)) localStorage.removeItem(key)
    }
  } catch {
    // Nothing is kept.
  }
}
