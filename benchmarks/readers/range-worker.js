// Thread of reelreckon-threads.js: takes ranges of the file from its end, as long as there are any.
import { closeSync, openSync, readSync } from 'node:fs'
import { enableCompileCache } from 'node:module'
import { parentPort, workerData } from 'node:worker_threads'

enableCompileCache()
const { borrowSlices, RangeReader } = await import('reelreckon/print')
/** Enough to know what holds when the print begins. */
const headBytes = 65_536
const { path, size, rangeBytes, claims } = workerData
const taken = new Int32Array(claims)
const file = openSync(path, 'r')
const [buffer] = borrowSlices(2 ** 19).slices
const read = (at, end) =>
  buffer.subarray(0, readSync(file, buffer, 0, Math.min(buffer.length, end - at), at))

const ranges = new RangeReader()
ranges.head(read(0, Math.min(headBytes, size)).slice())
for (let k = taken.length - 1; k > 0; k -= 1) {
  if (Atomics.compareExchange(taken, k, 0, 1) !== 0) continue
  const end = Math.min(size, (k + 1) * rangeBytes)
  ranges.begin(k * rangeBytes)
  for (let at = k * rangeBytes; at < end; ) {
    const slice = read(at, end)
    ranges.push(slice)
    at += slice.length
  }
  const log = ranges.finish()
  parentPort.postMessage({ k, log }, log ? [log.entries.buffer, log.lines.buffer] : [])
}
closeSync(file)
