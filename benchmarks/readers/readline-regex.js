// The script one writes in ten minutes: relative E only, no layers, no families, no curve.
import { createReadStream } from 'node:fs'
import { createInterface } from 'node:readline'

const move = /^G[0-3] [^;]*?E(-?\d*\.?\d+)/
let lines = 0
let net = 0
let peak = 0
const reader = createInterface({ input: createReadStream(process.argv[2]), crlfDelay: Infinity })
reader.on('line', (line) => {
  lines += 1
  const word = move.exec(line)
  if (word === null) return
  net += Number(word[1])
  if (net > peak) peak = net
})
reader.on('close', () => {
  const peakMemory_kB = process.resourceUsage().maxRSS
  console.log(JSON.stringify({ peak_mm: peak, net_mm: net, lines, peakMemory_kB }))
})
