import { serverWords } from '../strings/server-words.ts'
import type { Stops } from './api.ts'
import { OutOfTouch, ProblemFault } from './problem-fault.ts'
import { problemIn } from './problem-in.ts'

/** Sends a print file, and gets a copy of it that waits where it is told. */
export async function copyWithStops(
  file: File,
  { afterLayers, firmware, note, member }: Stops,
  signal: AbortSignal,
): Promise<Blob> {
  const query = new URLSearchParams({
    after: afterLayers.join(','),
    firmware,
    note,
    ...(member !== null && { member }),
  })
  let response: Response
  try {
    response = await fetch(`/api/paused-copies?${query}`, {
      method: 'POST',
      body: file,
      headers: { 'content-type': 'application/octet-stream' },
      signal,
    })
  } catch (error) {
    if (signal.aborted) throw error
    throw new OutOfTouch(serverWords.outOfReach)
  }
  if (response.ok) return response.blob()
  throw new ProblemFault(problemIn(await response.json().catch(() => null), response.status))
}
