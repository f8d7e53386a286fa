// One large print read as the browser's worker reads it, in a process of its own: node read-in-node.ts FILE
//
// Prints the time from the file to the end of its reading, ms. A browser compiles the reader anew for a
// file, too.
import { createReadStream } from 'node:fs'
import { PrintFileReader } from '../../src/print/index.ts'

const [path = ''] = process.argv.slice(2)
const from = performance.now()
const reader = new PrintFileReader({ silhouette: true })
for await (const chunk of createReadStream(path, { highWaterMark: 2 ** 20 })) {
  reader.push(chunk as Uint8Array)
}
const outcome = reader.finish()
if (!outcome.ok) throw new Error(outcome.refusal.message)
console.log(performance.now() - from)
