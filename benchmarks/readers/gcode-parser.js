// The package's parser, line by line: its stream keeps every line, which large files do not allow.
import { createReadStream } from 'node:fs'
import { createInterface } from 'node:readline'
import { parseLine } from 'gcode-parser'

let lines = 0
let net = 0
let peak = 0
const reader = createInterface({ input: createReadStream(process.argv[2]), crlfDelay: Infinity })
reader.on('line', (line) => {
  lines += 1
  const { words } = parseLine(line)
  const [command] = words
  if (command === undefined || command[0] !== 'G' || command[1] > 3) return
  for (const [letter, value] of words) if (letter === 'E') net += value
  if (net > peak) peak = net
})
reader.on('close', () => {
  const peakMemory_kB = process.resourceUsage().maxRSS
  console.log(JSON.stringify({ peak_mm: peak, net_mm: net, lines, peakMemory_kB }))
})
