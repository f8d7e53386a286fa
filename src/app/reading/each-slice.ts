/** Room for one slice, bytes: larger ones read no faster. */
const sliceRoom = 2 ** 20
/** Least of a slice but the last, bytes: a browser hands over less at a time, and each time costs. */
const leastSlice = 2 ** 18
/** A browser that hands nothing over for so long is asked anew for what is left, ms. */
const patience = 3000

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
  let at = 0
  const counted = (slice: Uint8Array<ArrayBuffer>): boolean => {
    at += slice.length
    return take(slice)
  }
  // oxlint-disable-next-line no-await-in-loop -- what is left, once it is known how much that is
  while (!(await readOn(at === 0 ? file : file.slice(at), counted)));
}

type Slice = Uint8Array<ArrayBuffer> | undefined

/** A stream that is read. */
interface Source {
  /** @param room - for the slice, where the browser can */
  readonly next: (room: ArrayBuffer) => Promise<Slice>
  readonly cancel: () => Promise<void>
}

/** Held while they are read: a stream that nothing but its own reading knows of may be swept away with it. */
const underWay = new Set<Source>()

/** @returns false where the browser stopped to hand over */
const readOn = async (
  file: Blob,
  take: (slice: Uint8Array<ArrayBuffer>) => boolean,
): Promise<boolean> => {
  const source = sourceOf(file.stream())
  underWay.add(source)
  try {
    for (let room = new ArrayBuffer(sliceRoom); ; ) {
      // oxlint-disable-next-line no-await-in-loop -- slices come one after another
      const slice = await soon(source.next(room))
      if (slice === late) {
        source.cancel().catch(() => undefined)
        return false
      }
      if (slice === undefined || !take(slice)) return true
      room = slice.buffer
    }
  } finally {
    underWay.delete(source)
  }
}

const late = Symbol('late')

const soon = (slice: Promise<Slice>): Promise<Slice | typeof late> =>
  new Promise((resolve, reject) => {
    const timer = setTimeout(() => resolve(late), patience)
    slice.then(resolve, reject).finally(() => clearTimeout(timer))
  })

const sourceOf = (stream: ReadableStream<Uint8Array<ArrayBuffer>>): Source => {
  try {
    const reader = stream.getReader({ mode: 'byob' })
    return {
      next: async (room) => {
        const { value } = await reader.read(new Uint8Array(room), { min: leastSlice })
        // What is less than asked for comes together with the end.
        return value?.length === 0 ? undefined : value
      },
      cancel: () => reader.cancel(),
    }
  } catch {
    // Not every browser gives a file's bytes into room of one's own.
    const reader = stream.getReader()
    return { next: async () => (await reader.read()).value, cancel: () => reader.cancel() }
  }
}
