// The library on several threads: this one reads from the file's begin, the others take ranges from its
// end, and what they noted is folded in where they meet.
import { closeSync, fstatSync, openSync } from 'node:fs'
import { enableCompileCache } from 'node:module'
import { Worker } from 'node:worker_threads'
import { RangeClaims, unitBytes } from './range-claims.js'
import { slicesOf } from './slices-of.js'

enableCompileCache()
const path = process.argv.at(-1)
const threads = Number(process.argv.at(-2))
const file = openSync(path, 'r')
const { size } = fstatSync(file)
const claims = RangeClaims.make(size, threads)
const taken = new RangeClaims(claims)
const logs = []
const workers = Array.from({ length: threads - 1 }, () => {
  const worker = new Worker(new URL('range-worker.js', import.meta.url), {
    workerData: { path, size, claims },
  })
  worker.on('message', (log) => logs.push(log))
  return new Promise((resolve, reject) => worker.on('exit', resolve).on('error', reject))
})

const { borrowSlices, PrintReader } = await import('reelreckon/print')
const [buffer] = borrowSlices(2 ** 18).slices
const reader = new PrintReader()
let at = 0
const readTo = (end) => {
  for (const slice of slicesOf(file, buffer, at, end)) reader.push(slice)
  at = end
}
for (let unit = 0; unit < size && taken.fromBegin(unit); unit += unitBytes) {
  readTo(Math.min(size, unit + unitBytes))
}
await Promise.all(workers)
for (const log of logs.toSorted((a, b) => a.from - b.from)) {
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
