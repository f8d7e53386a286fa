// The library as a person would use it: built code, the file in slices, the full draw curve.
import { closeSync, openSync, readSync } from 'node:fs'
import { PrintReader } from 'reelreckon/print'

const file = openSync(process.argv[2], 'r')
const buffer = new Uint8Array(1 << 18)
const reader = new PrintReader()
for (;;) {
  const length = readSync(file, buffer, 0, buffer.length, null)
  if (length === 0) break
  reader.push(buffer.subarray(0, length))
}
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
    curveRows: tool.curve.draw_mm.length,
    curveEnd_mm: tool.curve.draw_mm.at(-1),
    peakMemory_kB: process.resourceUsage().maxRSS,
  }),
)
