import { serverWords } from '../strings/server-words.ts'
import type { Sending } from './api.ts'
import { OutOfTouch, ProblemFault } from './problem-fault.ts'
import { problemIn } from './problem-in.ts'

/** Posts a file; unlike `fetch` this tells how far it has come. */
export const sendFile = <T>(
  path: string,
  file: Blob,
  type: string,
  { isDryRun = false, onSent, signal }: Sending,
): Promise<T> =>
  new Promise((resolve, reject) => {
    const request = new XMLHttpRequest()
    request.open('POST', `/api${path}${isDryRun ? '?dry_run=true' : ''}`)
    request.setRequestHeader('content-type', type)
    request.upload.addEventListener('progress', ({ loaded }) => onSent?.(loaded))
    request.addEventListener('load', () => {
      const json = parsed(request.responseText)
      if (request.status >= 200 && request.status < 300) resolve(json as T)
      else reject(new ProblemFault(problemIn(json, request.status)))
    })
    request.addEventListener('error', () => reject(new OutOfTouch(serverWords.outOfReach)))
    request.addEventListener('abort', () => reject(signal?.reason as Error))
    signal?.addEventListener('abort', () => request.abort())
    request.send(file)
  })

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
