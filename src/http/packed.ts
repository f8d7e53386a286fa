import type { Context, MiddlewareHandler } from 'hono'
import { compress } from 'hono/compress'

/** Whether an address is this machine's own, as a connection tells it. */
const isOwn = (address: string): boolean => /^(::1|(::ffff:)?127(\.\d{1,3}){3})$/i.test(address)

/**
 * Compresses answers that go over a network. To this machine itself they go as they are: packing takes
 * several times as long as the sending that it saves.
 *
 * @param remoteOf - address at the other end; a proxy before the server is this machine
 */
export const packed = (remoteOf: (context: Context) => string): MiddlewareHandler => {
  const pack = compress()
  return (context, next) => (isOwn(remoteOf(context)) ? next() : pack(context, next))
}
