// The same as browser-worker.js in Node: a file read slice after slice, then handed over and not read, then
// read from memory.
import { closeSync, openSync, readFileSync } from 'node:fs'
import { PrintReader } from 'reelreckon/print'
import { readAhead } from '../../dist/bundle/read-ahead.js'
import { readAlone } from './read-alone.js'

void new PrintReader()
const path = process.argv.at(-1)

/** How long that takes with all slices of the file, s. */
const seconds = async (take, end) => {
  const from = performance.now()
  const file = openSync(path, 'r')
  await readAhead(file, true, (slice) => {
    take(slice)
    return true
  })
  closeSync(file)
  end()
  return (performance.now() - from) / 1000
}

const nothing = () => undefined
const reader = new PrintReader()
const reading_s = await seconds(
  (slice) => reader.push(slice),
  () => reader.finish(),
)
const handed_s = await seconds(nothing, nothing)
const alone = readAlone(PrintReader, readFileSync(path))
console.log(JSON.stringify({ reading_s, handed_s, ...alone }))
