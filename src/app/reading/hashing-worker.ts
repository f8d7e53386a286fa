// Worker: the SHA-256 of one file, slice after slice, in constant memory.
//
// In WebAssembly: the browser's own hash takes no slices, and a file gathered for it is held twice over; that
// takes longer than is won where memory is slow to come.
import { createSHA256 } from 'hash-wasm'
import { eachSlice } from './each-slice.ts'
import type { HashingAsked, HashingMessage } from './worker-message.ts'

async function hash({ file }: HashingAsked): Promise<string> {
  const sum = await createSHA256()
  await eachSlice(file, (slice) => {
    sum.update(slice)
    return true
  })
  return sum.digest()
}

const say = (message: HashingMessage): void => self.postMessage(message)

self.addEventListener('message', ({ data }: MessageEvent<HashingAsked>) => {
  hash(data).then(
    (digest) => say({ kind: 'hashed', sha256: digest }),
    () => say({ kind: 'lost' }),
  )
})
