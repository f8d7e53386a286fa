// Worker: the SHA-256 of one file, beside the reading of it: of the slices that the reading hands on, so
// that the file is fetched once, and what was hashed is what was read.
import { eachSlice } from './each-slice.ts'
import { hashOfSlices } from './hash-of-slices.ts'
import { eachRelayed } from './slice-relay.ts'
import type { HashingAsked, HashingMessage } from './worker-message.ts'

async function hash(asked: HashingAsked): Promise<string> {
  const isAlone = 'file' in asked
  const sum = await hashOfSlices(isAlone ? asked.file.size : asked.bytes)
  if (!isAlone) await eachRelayed(asked.slices, sum.add)
  else {
    await eachSlice(asked.file, (slice) => {
      sum.add(slice)
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
