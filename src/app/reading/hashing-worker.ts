// Worker: the SHA-256 of one file, beside the reading of it: of the slices that the reading hands on, so
// that the file is fetched once, and what was hashed is what was read.
//
// In WebAssembly: the browser's own hash takes no slices, and a file gathered for it is held twice over; that
// takes longer than is won where memory is slow to come, and all of it when the reading has ended.
import { createSHA256 } from 'hash-wasm'
import { eachSlice } from './each-slice.ts'
import { eachRelayed } from './slice-relay.ts'
import type { HashingAsked, HashingMessage } from './worker-message.ts'

async function hash(asked: HashingAsked): Promise<string> {
  const sum = await createSHA256()
  if ('slices' in asked) await eachRelayed(asked.slices, (slice) => void sum.update(slice))
  else {
    await eachSlice(asked.file, (slice) => {
      sum.update(slice)
      return true
    })
  }
  return sum.digest()
}

const say = (message: HashingMessage): void => self.postMessage(message)

self.addEventListener('message', ({ data }: MessageEvent<HashingAsked>) => {
  hash(data).then(
    (digest) => say({ kind: 'hashed', sha256: digest }),
    () => say({ kind: 'lost' }),
  )
})
