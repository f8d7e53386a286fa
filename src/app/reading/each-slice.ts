/** Room for one slice, bytes: larger ones read no faster. */
const sliceRoom = 2 ** 20
/** Least of a slice but the last, bytes: a browser hands over less at a time, and each time costs. */
const leastSlice = 2 ** 18

/**
 * Reads a file from its beginning, slice by slice, in constant memory: where the browser can, all slices
 * come in the same room.
 *
 * @param take - given a slice, which holds until it returns; false ends the reading
 * @throws DOMException `NotReadableError` or `NotFoundError` where the file was changed or taken away
 */
export async function eachSlice(
  file: Blob,
  take: (slice: Uint8Array<ArrayBuffer>) => boolean,
): Promise<void> {
  const next = nextOf(file.stream())
  let slice = await next(new ArrayBuffer(sliceRoom))
  while (slice !== undefined && take(slice)) {
    // oxlint-disable-next-line no-await-in-loop -- slices come one after another
    slice = await next(slice.buffer)
  }
}

type Next = (room: ArrayBuffer) => Promise<Uint8Array<ArrayBuffer> | undefined>

const nextOf = (stream: ReadableStream<Uint8Array<ArrayBuffer>>): Next => {
  try {
    const reader = stream.getReader({ mode: 'byob' })
    return async (room) => {
      const { value } = await reader.read(new Uint8Array(room), { min: leastSlice })
      // What is less than asked for comes together with the end.
      return value?.length === 0 ? undefined : value
    }
  } catch {
    // Not every browser gives a file's bytes into room of one's own.
    const reader = stream.getReader()
    return async () => (await reader.read()).value
  }
}
