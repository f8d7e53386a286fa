// Thread of a page: reads a file slice after slice, by the app's own module, then has it handed over and does
// not read it, then reads it from memory, and says how long each took.
import { readAlone } from './read-alone.js'

const served = (path) => import(new URL(path, globalThis.location.href).href)
const library = served('/bundle/print.js')
const reading = served('/each-slice.js')

/** How long that takes with all slices of the file, s. */
const seconds = async (file, take, end) => {
  const { eachSlice } = await reading
  const from = performance.now()
  await eachSlice(file, (slice) => {
    take(slice)
    return true
  })
  end()
  return (performance.now() - from) / 1000
}

const nothing = () => undefined

const read = async (file) => {
  const { PrintReader } = await library
  // Compiles the kernel before, as the app does.
  void new PrintReader()
  const reader = new PrintReader()
  const reading_s = await seconds(
    file,
    (slice) => reader.push(slice),
    () => reader.finish(),
  )
  const handed_s = await seconds(file, nothing, nothing)
  const bytes = new Uint8Array(file.size)
  let at = 0
  const gather = (slice) => {
    bytes.set(slice, at)
    at += slice.length
  }
  await seconds(file, gather, nothing)
  const alone = readAlone(PrintReader, bytes)
  // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a thread has one parent and no origin
  globalThis.postMessage({ reading_s, handed_s, ...alone })
}

globalThis.addEventListener('message', ({ data }) => void read(data))
