import { digestOf, newSecret } from './secrets.ts'

/** How long somebody stays logged in, s. */
export const sessionLasts: number = 30 * 86_400

/** So many at once; the oldest goes first. */
const most = 1000

/** Who is logged in; forgotten when the server ends. Of each only a digest is held. */
export class Sessions {
  readonly #until = new Map<string, number>()
  readonly #now: () => number

  constructor(now: () => number) {
    this.#now = now
  }

  /** The secret for a cookie. */
  async begin(): Promise<string> {
    const secret = newSecret()
    const oldest = this.#until.keys().next()
    if (this.#until.size >= most && oldest.done !== true) this.#until.delete(oldest.value)
    this.#until.set(await digestOf(secret), this.#now() + sessionLasts * 1000)
    return secret
  }

  async has(secret: string): Promise<boolean> {
    const digest = await digestOf(secret)
    const until = this.#until.get(digest)
    if (until === undefined) return false
    if (until > this.#now()) return true
    this.#until.delete(digest)
    return false
  }

  async end(secret: string): Promise<void> {
    this.#until.delete(await digestOf(secret))
  }
}
