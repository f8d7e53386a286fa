// Thread of a page: reads a file slice after slice, by the app's own module, then once more from memory, and
// says how long each took.
import { readAlone } from './read-alone.js'

const served = (path) => import(new URL(path, globalThis.location.href).href)
const library = served('/bundle/print.js')
const reading = served('/each-slice.js')

const read = async (file) => {
  const { PrintReader } = await library
  const { eachSlice } = await reading
  // Compiles the kernel before, as the app does.
  void new PrintReader()
  const from = performance.now()
  const reader = new PrintReader()
  await eachSlice(file, (slice) => {
    reader.push(slice)
    return true
  })
  reader.finish()
  const reading_s = (performance.now() - from) / 1000
  const bytes = new Uint8Array(file.size)
  let at = 0
  await eachSlice(file, (slice) => {
    bytes.set(slice, at)
    at += slice.length
    return true
  })
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
  globalThis.postMessage({ reading_s, ...readAlone(PrintReader, bytes) })
}

globalThis.addEventListener('message', ({ data }) => void read(data))
