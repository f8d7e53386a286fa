/** Signed feed of one tool and the highest it ever stood, in the unit of the account. */
export interface Feed {
  readonly net: number
  /** Running maximum of `net`, never below 0. */
  readonly peak: number
  /** Sum of the positive feeds alone: what a careless reader would take for the draw. */
  readonly positive: number
}

/** Keeps net, peak and positive sum of every tool, feed by feed. */
export class FeedAccount {
  readonly #tools = new Map<number, { net: number; peak: number; positive: number }>()

  add(tool: number, feed: number): void {
    const entry = this.#tools.get(tool) ?? { net: 0, peak: 0, positive: 0 }
    entry.net += feed
    entry.peak = Math.max(entry.peak, entry.net)
    entry.positive += Math.max(0, feed)
    this.#tools.set(tool, entry)
  }

  /** A tool that never fed has an account of zeros. */
  of(tool: number): Feed {
    return this.#tools.get(tool) ?? { net: 0, peak: 0, positive: 0 }
  }

  /** Tools that fed, ascending. */
  get tools(): readonly number[] {
    return [...this.#tools.keys()].toSorted((a, b) => a - b)
  }
}
