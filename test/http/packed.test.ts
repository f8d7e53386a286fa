import { describe, expect, test } from 'vitest'
import { served } from './served.ts'

const { ask } = await served()
const shelfFrom = (address: string): Promise<Response> =>
  ask('GET', '/api/reels', undefined, { 'accept-encoding': 'gzip', 'x-test-address': address })

const check = (address: string): Promise<Response> =>
  ask('POST', '/api/checks/shelf', { length_mm: 48_630 }, { 'x-test-address': address })

const plain = await (await shelfFrom('127.0.0.1')).text()

describe('packed', () => {
  test.each(['127.0.0.1', '127.4.0.1', '::1', '::ffff:127.0.0.1'])(
    'to %s nothing is compressed',
    async (address) => {
      const response = await shelfFrom(address)
      expect(response.headers.get('content-encoding')).toBeNull()
      expect(await response.text()).toBe(plain)
    },
  )

  test.each(['192.0.2.7', '2001:db8::1', '127.example', 'unknown'])(
    'to %s it is',
    async (address) => {
      const response = await shelfFrom(address)
      expect(response.headers.get('content-encoding')).toBe('gzip')
      expect(response.headers.get('vary')).toBe('Accept-Encoding')
      const unpacked = response.body!.pipeThrough(new DecompressionStream('gzip'))
      expect(await new Response(unpacked).text()).toBe(plain)
    },
  )
})

test('a question asked again is answered with the same bytes, in either way', async () => {
  const [one, other, far] = [await check('::1'), await check('::1'), await check('192.0.2.7')]
  expect(one.headers.get('content-type')).toBe('application/json')
  const text = await one.text()
  expect(JSON.parse(text)).toMatchObject({ tools: [{ tool: 0 }] })
  expect(await other.text()).toBe(text)
  expect(await far.text()).toBe(text)
})
