import { expect, test } from 'vitest'
import { listenToPort, type Port } from '../../src/app/bench/listen-to-port.ts'

/** A port as the browser's: open once only, and not to be closed while it is being read. */
const portOf = (begun: (control: ReadableStreamDefaultController<Uint8Array>) => void) => {
  let isOpen = false
  let readable: ReadableStream<Uint8Array> | null = null
  const port: Port = {
    get readable() {
      return readable
    },
    open: async () => {
      if (isOpen) throw new Error('already open')
      isOpen = true
      readable = new ReadableStream<Uint8Array>({ start: begun })
    },
    close: async () => {
      if (readable?.locked === true) throw new Error('being read')
      isOpen = false
    },
  }
  return port
}

const said = (text: string): Uint8Array => new TextEncoder().encode(text)

test('lines come whole, however they were cut', async () => {
  const port = portOf((control) => {
    for (const piece of ['ST,+00', '421.50  g\r', '\nUS,+0', '0100.00  g\r\nST']) {
      control.enqueue(said(piece))
    }
    control.close()
  })
  const lines: string[] = []
  await listenToPort(
    port,
    () => {},
    (text) => lines.push(text),
  )
  expect(lines.filter((text) => text !== '')).toEqual(['ST,+00421.50  g', 'US,+00100.00  g'])
})

test('a port that failed is closed, so that it can be listened to again', async () => {
  let times = 0
  const port = portOf((control) => {
    if (times++ === 0) control.error(new Error('framing'))
    else control.close()
  })
  const listen = () =>
    listenToPort(
      port,
      () => {},
      () => {},
    )
  await expect(listen()).rejects.toThrow('framing')
  await expect(listen()).resolves.toBeUndefined()
})

test('a port is closed when it is stopped', async () => {
  const port = portOf(() => {})
  await listenToPort(
    port,
    (stop) => stop(),
    () => {},
  )
  await expect(port.open({ baudRate: 9600 })).resolves.toBeUndefined()
})
