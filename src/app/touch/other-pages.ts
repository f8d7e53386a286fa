import type { SessionJson } from '../../contract/index.ts'

/** Pages of this browser share a session: what one is told of it the others are. */
const channel = new BroadcastChannel('reelreckon-session')

/** Tells the other pages of this browser that somebody logged in or out. */
export const tellOtherPages = (session: SessionJson): void => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a channel is of its origin only
  channel.postMessage(session)
}

/** @returns how to stop */
export function hearOtherPages(heard: (session: SessionJson) => void): () => void {
  const hear = ({ data }: MessageEvent<SessionJson>): void => heard(data)
  channel.addEventListener('message', hear)
  return () => channel.removeEventListener('message', hear)
}

/** Begins the page anew: whoever logs in next finds neither the shelf nor the print at hand in it. */
export const beginPageAnew = (): void => location.reload()
