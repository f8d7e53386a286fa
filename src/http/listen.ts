import type { AddressInfo } from 'node:net'
import { createAdaptorServer } from '@hono/node-server'
import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context } from 'hono'
import { accept, type Outcome, refuse } from '../units/index.ts'
import type { App } from './make-app.ts'

/** A server that listens. */
export interface Listening {
  readonly port: number
  /** Lets what is under way end, and closes. */
  readonly close: () => Promise<void>
}

/** Address at the other end of the connection. */
export const remoteAddress = (context: Context): string =>
  getConnInfo(context).remote.address ?? 'unknown'

/** How long what is under way may take when the server ends, ms. */
const patience = 5000

/**
 * Opens a port.
 *
 * @param port - 0 for any that is free
 * @returns `port_taken`, `port_forbidden`, `address_unknown`
 */
export const listen = async (
  app: App,
  { host, port }: { readonly host: string; readonly port: number },
): Promise<Outcome<Listening>> => {
  const server = createAdaptorServer({ fetch: (request, env) => app.fetch(request, env) })
  const { promise, resolve } = Promise.withResolvers<NodeJS.ErrnoException | undefined>()
  server.once('error', resolve)
  server.listen(port, host, () => resolve(undefined))
  const error = await promise
  if (error !== undefined) {
    const said = sentences[error.code ?? '']
    if (said === undefined) throw error
    return refuse({ code: said[0], message: said[1](host, port) })
  }
  const close = async (): Promise<void> => {
    const closed = Promise.withResolvers<void>()
    server.close(() => closed.resolve())
    await app.end()
    if ('closeIdleConnections' in server) server.closeIdleConnections()
    const timer = setTimeout(() => {
      if ('closeAllConnections' in server) server.closeAllConnections()
    }, patience)
    await closed.promise
    clearTimeout(timer)
  }
  return accept({ port: (server.address() as AddressInfo).port, close })
}

const sentences: Readonly<
  Record<string, readonly [code: string, say: (host: string, port: number) => string]>
> = {
  EADDRINUSE: [
    'port_taken',
    (_, port) =>
      `Port ${port} is taken, perhaps by a Reelreckon that runs already. End that, or name another with --port.`,
  ],
  EACCES: [
    'port_forbidden',
    (_, port) => `Port ${port} is not open to this user. Name one above 1023 with --port.`,
  ],
  EADDRNOTAVAIL: [
    'address_unknown',
    (host) => `${host} is no address of this machine. Name one with --host, or leave it out.`,
  ],
  ENOTFOUND: [
    'address_unknown',
    (host) => `${host} is no address of this machine. Name one with --host, or leave it out.`,
  ],
}
