/** As much of the browser's serial port as is used here. */
export interface Port {
  readonly readable: ReadableStream<Uint8Array> | null
  readonly open: (settings: { readonly baudRate: number }) => Promise<void>
  readonly close: () => Promise<void>
}

/** Longer than any line of a scale: what has no ends is no scale. */
const longest = 80

/**
 * Opens a port and reads it line by line, 9600 baud, as most scales are set. It is closed whichever way
 * that ends: a port that stays open can not be opened again.
 *
 * @param onOpen - told how to stop
 * @throws what the port fails with; a scale set to another speed sends no frames that can be read
 */
export const listenToPort = async (
  port: Port,
  onOpen: (stop: () => void) => void,
  onLine: (text: string) => void,
): Promise<void> => {
  await port.open({ baudRate: 9600 })
  const reader = port.readable?.getReader()
  try {
    if (reader === undefined) return
    onOpen(() => void reader.cancel())
    const decoder = new TextDecoder('ascii')
    let held = ''
    for (;;) {
      // oxlint-disable-next-line no-await-in-loop -- a stream comes in its order
      const { value, done } = await reader.read()
      if (done) break
      const lines = (held + decoder.decode(value, { stream: true })).split(/[\r\n]+/)
      held = (lines.pop() ?? '').slice(-longest)
      for (const text of lines) onLine(text)
    }
  } finally {
    reader?.releaseLock()
    await port.close()
  }
}
