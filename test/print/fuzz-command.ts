/**
 * Sends random and mutated lines through four readers that must agree, and prints how many: the fast
 * one, its slow twin, the fast one without WebAssembly, and ranges read apart and folded.
 *
 *     node test/print/fuzz-command.ts [--lines 1000000] [--seed 1] [print.gcode …]
 *
 * Prints that are named are read first, and counted.
 */
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { Worker } from 'node:worker_threads'
import type { ReadOptions } from '../../src/print/index.ts'
import { fuzzReaders } from './fuzz-readers.ts'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    lines: { type: 'string', default: '1000000' },
    seed: { type: 'string', default: '1' },
  },
})
const worker = new Worker(new URL('./read-without-kernel.ts', import.meta.url))
const withoutKernel = async (bytes: Uint8Array, options: ReadOptions): Promise<string> => {
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has no origin
  worker.postMessage({ bytes, options })
  const [told] = (await once(worker, 'message')) as [string]
  return told
}
const seed = Number(values.seed)
let said = 0
const count = await fuzzReaders({
  lines: Number(values.lines),
  seed,
  prints: positionals.map((path) => readFileSync(path)),
  withoutKernel,
  onProgress: ({ lines }) => {
    if (lines - said < 50_000) return
    said = lines
    process.stderr.write(`${lines} lines\n`)
  },
})
await worker.terminate()
const prints = positionals.length
const programs = `${count.programs - prints} programs${prints > 0 ? ` and ${prints} prints` : ''}`
console.log(
  `${count.lines} lines in ${programs} from seed ${seed} (${count.refused} refused): ` +
    'fast, slow, without WebAssembly and in ranges agree; ' +
    `${Math.round((100 * count.folded) / count.bytes)} % of the bytes were read in ranges and folded.`,
)
