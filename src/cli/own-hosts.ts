import { hostname, networkInterfaces } from 'node:os'

/** Addresses that only this machine reaches. */
export const isLoopback = (address: string): boolean =>
  address === 'localhost' || address === '::1' || /^127(\.\d{1,3}){3}$/.test(address)

const inUrl = (address: string): string | undefined => {
  const bare = address.replace(/%.*$/, '')
  return URL.parse(`http://${bare.includes(':') ? `[${bare}]` : bare}`)?.hostname
}

/**
 * By what names a server may be called: this machine's on loopback; its addresses and its own name
 * where it listens elsewhere; and those that are told.
 */
export const ownHosts = (host: string, names: readonly string[]): ReadonlySet<string> => {
  const own = ['localhost', '127.0.0.1', '::1', host, ...names]
  if (!isLoopback(host)) {
    const name = hostname()
    own.push(name, `${name}.local`)
    for (const addresses of Object.values(networkInterfaces())) {
      for (const { address } of addresses ?? []) own.push(address)
    }
  }
  return new Set(own.flatMap((each) => inUrl(each) ?? []))
}
