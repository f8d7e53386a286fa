// The same as browser-worker.js in Node: a file read slice after slice, then once more from memory.
import { closeSync, openSync, readFileSync } from 'node:fs'
import { PrintReader } from 'reelreckon/print'
import { readAhead } from '../../dist/bundle/read-ahead.js'
import { readAlone } from './read-alone.js'

void new PrintReader()
const path = process.argv.at(-1)
const from = performance.now()
const file = openSync(path, 'r')
const reader = new PrintReader()
await readAhead(file, true, (slice) => {
  reader.push(slice)
  return true
})
closeSync(file)
reader.finish()
const reading_s = (performance.now() - from) / 1000
console.log(JSON.stringify({ reading_s, ...readAlone(PrintReader, readFileSync(path)) }))
