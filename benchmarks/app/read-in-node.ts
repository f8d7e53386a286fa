// One large print read as the command line reads it, in a process of its own: node read-in-node.ts FILE
//
// With what the browser's worker reads of it: its silhouette and how long it takes; its hash is worked out
// in a thread beside. Prints a line of JSON: the time from the file to the end of its reading, and to its
// hash, ms.
import { open } from 'node:fs/promises'
import { hashOfFile } from '../../src/cli/file-hash.ts'
import { readAhead } from '../../src/cli/read-ahead.ts'
import { PrintFileReader } from '../../src/print/index.ts'

const [path = ''] = process.argv.slice(2)
const from = performance.now()
const handle = await open(path)
const hash = hashOfFile(handle.fd)
const reader = new PrintFileReader({ silhouette: true, motion: {} })
await readAhead(handle.fd, true, (slice) => {
  reader.push(slice)
  return true
})
const outcome = reader.finish()
if (!outcome.ok) throw new Error(outcome.refusal.message)
const reading = performance.now() - from
await hash.digest()
console.log(JSON.stringify({ reading, hashed: performance.now() - from }))
await hash.stop()
await handle.close()
