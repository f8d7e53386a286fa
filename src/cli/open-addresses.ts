import { networkInterfaces } from 'node:os'

/** Listens at every address, and is none itself. */
const isAnywhere = (host: string): boolean => host === '0.0.0.0' || host === '::'

const inUrl = (address: string): string => (address.includes(':') ? `[${address}]` : address)

/** Interfaces of a machine, as `os.networkInterfaces` tells of them. */
type Interfaces = Readonly<
  Record<
    string,
    | readonly { readonly address: string; readonly family: string; readonly internal: boolean }[]
    | undefined
  >
>

/**
 * Where a server can be opened, this machine's own address first where it listens everywhere. Addresses
 * of IPv6 that hold on one link only are left out: no browser takes them.
 *
 * @param host - where it listens; `0.0.0.0` is every address of IPv4, `::` of both
 */
export const openAddresses = (
  host: string,
  port: number,
  interfaces: Interfaces = networkInterfaces(),
): readonly string[] => {
  const at = (address: string): string => `http://${inUrl(address)}:${port}/`
  if (!isAnywhere(host)) return [at(host)]
  const others = Object.values(interfaces)
    .flatMap((each) => each ?? [])
    .filter(({ internal }) => !internal)
    .filter(
      ({ family, address }) => family === 'IPv4' || (host === '::' && !/^fe[89ab]/i.test(address)),
    )
    .map(({ address }) => at(address))
  return [at('localhost'), ...new Set(others)]
}
