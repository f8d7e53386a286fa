// The library as the command line uses it: built code, slices read ahead, the full draw curve;
// with `--silhouette` the silhouette besides, with `--time` the time along the print.
import { closeSync, openSync } from 'node:fs'
import { enableCompileCache } from 'node:module'

enableCompileCache()
const { PrintReader } = await import('reelreckon/print')
const { readAhead } = await import('../../dist/bundle/read-ahead.js')

const file = openSync(process.argv.at(-1), 'r')
const reader = new PrintReader({
  silhouette: process.argv.includes('--silhouette'),
  ...(process.argv.includes('--time') && { motion: {} }),
})
await readAhead(file, true, (slice) => {
  reader.push(slice)
  return reader.refusal === null
})
closeSync(file)
const outcome = reader.finish()
if (!outcome.ok) throw new Error(outcome.refusal.message)
const { families, layers, lines, silhouette, time } = outcome.value
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
    time_s: time?.total_s,
    silhouetteCells: silhouette?.bits.filter((bits) => bits !== 0).length,
    peakMemory_kB: process.resourceUsage().maxRSS,
  }),
)
