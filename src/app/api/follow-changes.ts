import type { ChangeJson } from '../../contract/index.ts'

/** Whether the page is in touch with the server, and where the ledger stands there. */
export type Touch =
  | { readonly inTouch: true; readonly change: ChangeJson }
  | { readonly inTouch: false }

/** Until the server is looked for again, ms. */
const pause = 2000

/**
 * Listens to what is written, and comes back by itself when the server was out of reach. A page that
 * nobody sees does not listen: a browser has room for six listeners of one server.
 *
 * @returns how to stop
 */
export function followChanges(told: (touch: Touch) => void): () => void {
  let source: EventSource | null = null
  let timer: ReturnType<typeof setTimeout> | undefined
  const leave = (): void => {
    clearTimeout(timer)
    source?.close()
    source = null
  }
  const listen = (): void => {
    if (source !== null || document.hidden) return
    clearTimeout(timer)
    const own = new EventSource('/api/changes')
    source = own
    own.addEventListener('change', ({ data }: MessageEvent<string>) =>
      told({ inTouch: true, change: JSON.parse(data) as ChangeJson }),
    )
    own.addEventListener('error', () => {
      if (source !== own) return
      leave()
      told({ inTouch: false })
      timer = setTimeout(listen, pause)
    })
  }
  const seen = (): void => (document.hidden ? leave() : listen())
  document.addEventListener('visibilitychange', seen)
  window.addEventListener('online', listen)
  listen()
  return () => {
    leave()
    document.removeEventListener('visibilitychange', seen)
    window.removeEventListener('online', listen)
  }
}
