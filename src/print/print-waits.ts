/** What a printer waits for, that is no move: it takes what it takes. */
export type WaitKind = 'bed' | 'nozzle' | 'chamber' | 'homing' | 'probing' | 'tool' | 'person'

/** Waits of one kind at one place of the print, or near each other. */
export interface Wait {
  readonly kind: WaitKind
  /** Planned time at which they begin, s. */
  readonly at_s: number
  readonly times: number
}

const budget = 1024

/** Keeps the waits of a print in constant memory: when there are too many, neighbours join. */
export class PrintWaits {
  #waits: Wait[] = []

  add(kind: WaitKind, at_s: number): void {
    if (this.#waits.length === budget) this.#join()
    this.#waits.push({ kind, at_s, times: 1 })
  }

  /** Joins every two of a kind that follow each other; the first says where. */
  #join(): void {
    const open = new Map<WaitKind, number>()
    const joined: Wait[] = []
    for (const wait of this.#waits) {
      const at = open.get(wait.kind)
      if (at === undefined) {
        open.set(wait.kind, joined.push(wait) - 1)
      } else {
        const first = joined[at] as Wait
        joined[at] = { ...first, times: first.times + wait.times }
        open.delete(wait.kind)
      }
    }
    this.#waits = joined
  }

  list(): readonly Wait[] {
    return this.#waits
  }
}
