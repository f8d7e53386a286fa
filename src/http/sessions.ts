import { digestOf, newSecret } from './secrets.ts'

/** How long somebody stays logged in, s. */
export const sessionLasts: number = 30 * 86_400

/** So many at once; the oldest goes first. */
const most = 1000

interface Session {
  /** Milliseconds since 1970. */
  readonly until: number
  readonly phraseMark: string
}

/**
 * Who is logged in; forgotten when the server ends, and void once another pass-phrase is set. Of each
 * only a digest is held.
 */
export class Sessions {
  readonly #sessions = new Map<string, Session>()
  readonly #now: () => number

  constructor(now: () => number) {
    this.#now = now
  }

  /**
   * The secret for a cookie.
   *
   * @param phraseMark - of the pass-phrase that was given
   */
  async begin(phraseMark: string): Promise<string> {
    const secret = newSecret()
    const oldest = this.#sessions.keys().next()
    if (this.#sessions.size >= most && oldest.done !== true) this.#sessions.delete(oldest.value)
    const until = this.#now() + sessionLasts * 1000
    this.#sessions.set(await digestOf(secret), { until, phraseMark })
    return secret
  }

  /** @param phraseMark - of the pass-phrase that holds now */
  async has(secret: string, phraseMark: string): Promise<boolean> {
    const digest = await digestOf(secret)
    const session = this.#sessions.get(digest)
    if (session === undefined) return false
    if (session.until > this.#now() && session.phraseMark === phraseMark) return true
    this.#sessions.delete(digest)
    return false
  }

  async end(secret: string): Promise<void> {
    this.#sessions.delete(await digestOf(secret))
  }
}
