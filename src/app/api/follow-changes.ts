import type { ChangeJson } from '../../contract/index.ts'

/** Whether the page is in touch with the server, and where the ledger stands there. */
export type Touch =
  | { readonly inTouch: true; readonly change: ChangeJson }
  | { readonly inTouch: false }

/** A page that listens. */
export interface Following {
  /** Something could not be asked: the page is out of touch until the server is heard again. */
  readonly doubt: () => void
  readonly stop: () => void
}

/** Until the server is looked for again, ms. */
const pause = 2000
/** The server says where the ledger stands as soon as it hears that somebody listens, ms. */
const firstWord = 20_000
/** It says that it is still there every 15 s; a network that went away says nothing, ms. */
const silence = 40_000

/**
 * Listens to what is written, and comes back by itself when the server was out of reach: by an error, by a
 * request that did not reach it, or by its silence. A page that nobody sees does not listen: a browser has
 * room for six listeners of one server.
 */
export function followChanges(told: (touch: Touch) => void): Following {
  let source: EventSource | null = null
  let timer: ReturnType<typeof setTimeout> | undefined
  let isHeard = false
  const leave = (): void => {
    clearTimeout(timer)
    source?.close()
    source = null
    isHeard = false
  }
  const lose = (): void => {
    leave()
    told({ inTouch: false })
    timer = setTimeout(listen, pause)
  }
  const waitFor = (ms: number): void => {
    clearTimeout(timer)
    timer = setTimeout(lose, ms)
  }
  const listen = (): void => {
    if (source !== null || document.hidden) return
    const own = new EventSource('/api/changes')
    source = own
    waitFor(firstWord)
    own.addEventListener('change', ({ data }: MessageEvent<string>) => {
      if (source !== own) return
      isHeard = true
      waitFor(silence)
      told({ inTouch: true, change: JSON.parse(data) as ChangeJson })
    })
    own.addEventListener('here', () => {
      if (source === own) waitFor(silence)
    })
    own.addEventListener('error', () => {
      if (source === own) lose()
    })
  }
  const seen = (): void => (document.hidden ? leave() : listen())
  const online = (): void => {
    // What was begun without a network may hang for minutes.
    if (!isHeard) leave()
    listen()
  }
  document.addEventListener('visibilitychange', seen)
  window.addEventListener('online', online)
  listen()
  return {
    // While it is looked for already, every request fails: nothing new is told by it.
    doubt: () => {
      if (isHeard) lose()
    },
    stop: () => {
      leave()
      document.removeEventListener('visibilitychange', seen)
      window.removeEventListener('online', online)
    },
  }
}
