import type { ChangeJson } from '../contract/index.ts'

/** A change; or that who may listen is another than before; or, undefined, that nothing follows. */
export type ToldLive = ChangeJson | 'who_may' | undefined

/**
 * Tells open pages that something was written, by this server or by anybody else who has the ledger
 * open: the store's revision is looked at now and then while somebody listens.
 */
export class ChangeFeed {
  readonly #look: () => Promise<ChangeJson>
  readonly #every: number
  readonly #listeners = new Set<(told: ToldLive) => void>()
  #last: ChangeJson | undefined
  #timer: ReturnType<typeof setTimeout> | undefined
  #ended = false

  constructor(look: () => Promise<ChangeJson>, every: number) {
    this.#look = look
    this.#every = every
  }

  get listeners(): number {
    return this.#listeners.size
  }

  /** Told of what is there now, then of each change. @returns how to stop */
  listen(listener: (told: ToldLive) => void): () => void {
    if (this.#ended) {
      listener(undefined)
      return () => undefined
    }
    this.#listeners.add(listener)
    if (this.#last !== undefined && this.#listeners.size > 1) listener(this.#last)
    else {
      this.#last = undefined
      void this.nudge()
    }
    return () => {
      this.#listeners.delete(listener)
      if (this.#listeners.size === 0) clearTimeout(this.#timer)
    }
  }

  /** Looks at once. */
  async nudge(): Promise<void> {
    clearTimeout(this.#timer)
    if (this.#listeners.size === 0 || this.#ended) return
    try {
      const now = await this.#look()
      const isNew = now.revision !== this.#last?.revision || now.ledger !== this.#last.ledger
      this.#last = now
      if (isNew) for (const listener of this.#listeners) listener(now)
    } catch {
      // A store that can not be read for the moment is looked at again.
    }
    clearTimeout(this.#timer)
    if (this.#listeners.size > 0 && !this.#ended) {
      this.#timer = setTimeout(() => void this.nudge(), this.#every)
    }
  }

  /** Has each listener look whether it may still listen. */
  askWhoMay(): void {
    for (const listener of this.#listeners) listener('who_may')
  }

  end(): void {
    this.#ended = true
    clearTimeout(this.#timer)
    for (const listener of this.#listeners) listener(undefined)
    this.#listeners.clear()
  }
}
