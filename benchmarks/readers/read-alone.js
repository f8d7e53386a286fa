const sliceBytes = 2 ** 20

const once = (PrintReader, bytes) => {
  const from = performance.now()
  const reader = new PrintReader()
  for (let at = 0; at < bytes.length; at += sliceBytes) {
    reader.push(bytes.subarray(at, at + sliceBytes))
  }
  const { value: reading } = reader.finish()
  const alone_s = (performance.now() - from) / 1000
  return { alone_s, peak_mm: reading?.families[0].tools[0].peak_mm }
}

/**
 * How long the reader takes for bytes that lie in memory, s, and what it finds them to draw, mm. The second
 * time counts: the first one waits for memory that nobody looked at yet.
 */
export const readAlone = (PrintReader, bytes) => {
  once(PrintReader, bytes)
  return once(PrintReader, bytes)
}
