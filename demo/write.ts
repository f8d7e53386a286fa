// Writes the demo prints and the bench's ledger into a folder: node demo/write.ts DIR [--big 200MB] [--absolute]
import { closeSync, mkdirSync, openSync, writeFileSync, writeSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { type BigPrintTruth, bigPrint } from './big-print.ts'
import { harbourLedgerText } from './ledger/harbour.ts'
import { demoPrints } from './prints/index.ts'

const usage = 'usage: node demo/write.ts DIR [--big 200MB] [--absolute]'

const readSize = (text: string): number | undefined => {
  const [, figure, unit] = /^(\d+(?:\.\d+)?)(kB|MB|GB)$/.exec(text) ?? []
  if (figure === undefined) return undefined
  return Math.round(Number(figure) * (unit === 'GB' ? 1e9 : unit === 'MB' ? 1e6 : 1e3))
}

const metres = (mm: number): string => `${(mm / 1000).toFixed(3)} m`

const writeBig = (path: string, bytes: number, eMode: 'absolute' | 'relative'): BigPrintTruth => {
  const file = openSync(path, 'w')
  try {
    const chunks = bigPrint(bytes, { eMode })
    let next = chunks.next()
    while (next.done !== true) {
      for (let at = 0; at < next.value.length; ) at += writeSync(file, next.value, at)
      next = chunks.next()
    }
    return next.value
  } finally {
    closeSync(file)
  }
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { big: { type: 'string' }, absolute: { type: 'boolean', default: false } },
})
const [folder, ...more] = positionals
const bigBytes = values.big === undefined ? 0 : readSize(values.big)
if (folder === undefined || more.length > 0 || bigBytes === undefined) {
  console.error(usage)
  process.exitCode = 2
} else {
  mkdirSync(folder, { recursive: true })
  for (const { fileName, description, truth, write } of demoPrints) {
    const text = write()
    writeFileSync(join(folder, fileName), text)
    const draws = truth.tools.map(({ peak_mm }) => metres(peak_mm)).join(' and ')
    console.log(`${fileName}: ${text.length} bytes, draws ${draws}. ${description}`)
  }
  const ledger = harbourLedgerText()
  writeFileSync(join(folder, 'marrowick.ndjson'), ledger)
  console.log(`marrowick.ndjson: ${ledger.split('\n').length - 1} lines, the ledger of the bench.`)
  if (bigBytes > 0) {
    const truth = writeBig(
      join(folder, 'big-print.gcode'),
      bigBytes,
      values.absolute ? 'absolute' : 'relative',
    )
    const { bytes, layers, peak_mm } = truth
    console.log(`big-print.gcode: ${bytes} bytes, draws ${metres(peak_mm)} in ${layers} layers.`)
  }
}
