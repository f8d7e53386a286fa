/** Pauses before what waits is sent again, ms: a word that was lost costs a moment, a server that fails is left alone. */
const pauses = { first: 1000, last: 10_000 }

/** Sends soon, and then more and more seldom. @returns how to stop */
export function sendAgain(send: () => Promise<unknown>): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined
  let isOver = false
  const sendAfter = (pause: number): void => {
    timer = setTimeout(async () => {
      await send()
      if (!isOver) sendAfter(Math.min(2 * pause, pauses.last))
    }, pause)
  }
  sendAfter(pauses.first)
  return () => {
    isOver = true
    clearTimeout(timer)
  }
}
