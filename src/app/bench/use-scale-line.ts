import { useEffect, useRef, useState } from 'react'
import { readScaleLine, type ScaleLine } from './read-scale-line.ts'

/** As much of the browser's serial port as is used here. */
interface Port {
  readonly readable: ReadableStream<Uint8Array> | null
  readonly open: (settings: { readonly baudRate: number }) => Promise<void>
  readonly close: () => Promise<void>
}
interface Serial {
  readonly requestPort: () => Promise<Port>
}

const serialOf = (): Serial | null =>
  'serial' in navigator ? (navigator as unknown as { readonly serial: Serial }).serial : null

/** Longer than any line of a scale: what has no ends is no scale. */
const longest = 80

/** Listens to a scale on a serial port. */
export interface ScaleLines {
  /** False where the browser has no serial ports, or the page is not served safely. */
  readonly can: boolean
  readonly state: 'off' | 'listening' | 'failed'
  readonly begin: () => void
}

/** @param onLine - told each line that a scale said; 9600 baud, as most are set */
export function useScaleLine(onLine: (line: ScaleLine) => void): ScaleLines {
  const [state, setState] = useState<ScaleLines['state']>('off')
  const told = useRef(onLine)
  told.current = onLine
  const stop = useRef<(() => void) | null>(null)
  useEffect(() => () => stop.current?.(), [])
  const listen = async (serial: Serial): Promise<void> => {
    const port = await serial.requestPort()
    await port.open({ baudRate: 9600 })
    const reader = port.readable?.getReader()
    if (reader === undefined) return
    stop.current = () => void reader.cancel()
    setState('listening')
    const decoder = new TextDecoder('ascii')
    let held = ''
    for (;;) {
      // oxlint-disable-next-line no-await-in-loop -- a stream comes in its order
      const { value, done } = await reader.read()
      if (done) break
      const lines = (held + decoder.decode(value, { stream: true })).split(/[\r\n]+/)
      held = (lines.pop() ?? '').slice(-longest)
      for (const text of lines) {
        const line = readScaleLine(text)
        if (line !== null) told.current(line)
      }
    }
    reader.releaseLock()
    await port.close()
    setState('off')
  }
  return {
    can: serialOf() !== null,
    state,
    begin: () => {
      const serial = serialOf()
      if (serial === null) return
      listen(serial).catch((error: unknown) => {
        // Nothing was chosen: nothing is wrong.
        if (error instanceof DOMException && error.name === 'NotFoundError') return
        setState('failed')
      })
    },
  }
}
