import { useEffect, useRef, useState } from 'react'
import { listenToPort, type Port } from './listen-to-port.ts'
import { readScaleLine, type ScaleLine } from './read-scale-line.ts'

interface Serial {
  readonly requestPort: () => Promise<Port>
}

const serialOf = (): Serial | null =>
  'serial' in navigator ? (navigator as unknown as { readonly serial: Serial }).serial : null

/** Listens to a scale on a serial port. */
export interface ScaleLines {
  /** False where the browser has no serial ports, or the page is not served safely. */
  readonly can: boolean
  readonly state: 'off' | 'listening' | 'failed'
  readonly begin: () => void
}

/** @param onLine - told each line that a scale said */
export function useScaleLine(onLine: (line: ScaleLine) => void): ScaleLines {
  const [state, setState] = useState<ScaleLines['state']>('off')
  const told = useRef(onLine)
  told.current = onLine
  const stop = useRef<(() => void) | null>(null)
  useEffect(() => () => stop.current?.(), [])
  const listen = async (serial: Serial): Promise<void> => {
    const port = await serial.requestPort()
    try {
      await listenToPort(
        port,
        (stopIt) => {
          stop.current = stopIt
          setState('listening')
        },
        (text) => {
          const line = readScaleLine(text)
          if (line !== null) told.current(line)
        },
      )
    } finally {
      stop.current = null
    }
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
