// The library on several threads: this one reads from the file's begin, the others take ranges from its
// end, and what they noted is folded in where they meet.
import { closeSync, fstatSync, openSync, readSync } from 'node:fs'
import { enableCompileCache } from 'node:module'
import { Worker } from 'node:worker_threads'

enableCompileCache()
const path = process.argv.at(-1)
const threads = Number(process.argv.at(-2))
const rangeBytes = 8 * 2 ** 20
const file = openSync(path, 'r')
const { size } = fstatSync(file)
const claims = new SharedArrayBuffer(4 * Math.ceil(size / rangeBytes))
const taken = new Int32Array(claims)
const logs = []
const workers = Array.from({ length: threads - 1 }, () => {
  const worker = new Worker(new URL('range-worker.js', import.meta.url), {
    workerData: { path, size, rangeBytes, claims },
  })
  worker.on('message', ({ k, log }) => {
    logs[k] = log
  })
  return new Promise((resolve, reject) => worker.on('exit', resolve).on('error', reject))
})

const { PrintReader } = await import('reelreckon/print')
const { readAhead } = await import('../../dist/bundle/read-ahead.js')
const reader = new PrintReader()
let at = 0
const mine = () => Atomics.compareExchange(taken, Math.floor(at / rangeBytes), 0, 2) !== 1
await readAhead(file, true, (slice) => {
  // Slices are a whole part of a range.
  if (at % rangeBytes === 0 && !mine()) return false
  reader.push(slice)
  at += slice.length
  return reader.refusal === null
})
await Promise.all(workers)
const buffer = new Uint8Array(2 ** 19)
const readTo = (end) => {
  while (at < end) {
    const length = readSync(file, buffer, 0, Math.min(buffer.length, end - at), at)
    reader.push(buffer.subarray(0, length))
    at += length
  }
}
for (let k = Math.floor(at / rangeBytes); k < taken.length; k += 1) {
  const log = logs[k]
  if (!log) continue
  readTo(log.from)
  at = reader.fold(log)
}
readTo(size)
closeSync(file)
const outcome = reader.finish()
if (!outcome.ok) throw new Error(outcome.refusal.message)
const { families, layers, lines } = outcome.value
const [tool] = families[0].tools
console.log(
  JSON.stringify({
    peak_mm: tool.peak_mm,
    net_mm: tool.net_mm,
    lines,
    layers: layers.count,
    layerEnds: tool.layerEnd_mm.length,
    curveRows: tool.curve.draw_mm.length,
    curveEnd_mm: tool.curve.draw_mm.at(-1),
    peakMemory_kB: process.resourceUsage().maxRSS,
  }),
)
