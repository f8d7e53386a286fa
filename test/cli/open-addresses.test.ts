import { expect, test } from 'vitest'
import { openAddresses } from '../../src/cli/open-addresses.ts'

const interfaces = {
  lo: [
    { address: '127.0.0.1', family: 'IPv4', internal: true },
    { address: '::1', family: 'IPv6', internal: true },
  ],
  eth0: [
    { address: '192.0.2.7', family: 'IPv4', internal: false },
    { address: '2001:db8::7', family: 'IPv6', internal: false },
    { address: 'fe80::7', family: 'IPv6', internal: false },
  ],
  gone: undefined,
}

test.each([
  ['127.0.0.1', ['http://127.0.0.1:4173/']],
  ['::1', ['http://[::1]:4173/']],
  ['0.0.0.0', ['http://localhost:4173/', 'http://192.0.2.7:4173/']],
  ['::', ['http://localhost:4173/', 'http://192.0.2.7:4173/', 'http://[2001:db8::7]:4173/']],
])('a server that listens at %s is opened at', (host, addresses) => {
  expect(openAddresses(host, 4173, interfaces)).toEqual(addresses)
})
