/** Room for one slice, bytes: larger ones read no faster. */
const room = 2 ** 20

/**
 * Reads a file from its beginning, slice by slice, in constant memory: where the browser can, each slice
 * comes in the room of the last.
 *
 * @param take - given a slice, which holds until it returns; false ends the reading
 * @throws DOMException `NotReadableError` or `NotFoundError` where the file was changed or taken away
 */
export async function eachSlice(file: Blob, take: (slice: Uint8Array) => boolean): Promise<void> {
  const next = nextOf(file.stream())
  let slice = await next()
  // oxlint-disable-next-line no-await-in-loop -- slices come one after another
  while (slice !== undefined && take(slice)) slice = await next()
}

const nextOf = (
  stream: ReadableStream<Uint8Array<ArrayBuffer>>,
): (() => Promise<Uint8Array | undefined>) => {
  try {
    const reader = stream.getReader({ mode: 'byob' })
    let buffer = new ArrayBuffer(room)
    return async () => {
      const { done, value } = await reader.read(new Uint8Array(buffer))
      if (value !== undefined) buffer = value.buffer
      return done ? undefined : value
    }
  } catch {
    // Not every browser gives a file's bytes into room of one's own.
    const reader = stream.getReader()
    return async () => (await reader.read()).value
  }
}
