// Thread of reelreckon-threads.js: takes ranges of the file from its end, as long as there are any.
import { closeSync, openSync } from 'node:fs'
import { enableCompileCache } from 'node:module'
import { parentPort, workerData } from 'node:worker_threads'
import { RangeClaims } from './range-claims.js'
import { slicesOf } from './slices-of.js'

enableCompileCache()
const { borrowSlices, RangeReader } = await import('reelreckon/print')
/** Enough to know what holds when the print begins. */
const headBytes = 65_536
const { path, size, claims } = workerData
const taken = new RangeClaims(claims)
const file = openSync(path, 'r')
const [buffer] = borrowSlices(2 ** 18).slices
const ranges = new RangeReader()
for (const head of slicesOf(file, buffer, 0, Math.min(headBytes, size))) ranges.head(head)
/** Where the range read last begins, and where it begins to be noted. */
let behind = { from: size, noted: size }
for (let range = taken.fromEnd(); range !== null; range = taken.fromEnd()) {
  const { from } = range
  // What lies before that can not be noted with it; with this range it can.
  const end = range.end === behind.from ? behind.noted : Math.min(size, range.end)
  ranges.begin(from)
  for (const slice of slicesOf(file, buffer, from, end)) ranges.push(slice)
  const log = ranges.finish()
  behind = { from, noted: log?.from ?? from }
  if (log) parentPort.postMessage(log, [log.entries.buffer, log.lines.buffer])
}
closeSync(file)
