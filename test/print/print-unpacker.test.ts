import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { PrintUnpacker } from '../../src/print/index.ts'
import { zipOf } from '../zip-of.ts'

const one = new TextEncoder().encode('M83\nG1 X1 E1\n')
const two = new TextEncoder().encode('M83\nG1 X2 E2\n')

/** What comes out, or the code of why nothing does. */
const unpacked = (bytes: Uint8Array, member: string | null, size: number): string => {
  const parts: Uint8Array[] = []
  const unpacker = new PrintUnpacker(member, (part) => parts.push(part.slice()))
  for (let at = 0; at < bytes.length; at += size) unpacker.push(bytes.subarray(at, at + size))
  const done = unpacker.finish()
  return done.ok ? Buffer.concat(parts).toString('latin1') : done.refusal.code
}

const plain = Buffer.from(one).toString('latin1')
const zip = zipOf([
  { name: 'a.gcode', bytes: one },
  { name: 'b.gcode', bytes: two, kind: 'described' },
  { name: 'notes.txt', bytes: two },
])

test.each([1, 2, 3, 1000])('hands on the machine code, cut in %i', (size) => {
  expect(unpacked(one, null, size)).toBe(plain)
  expect(unpacked(gzipSync(one), null, size)).toBe(plain)
  expect(unpacked(zip, 'a.gcode', size)).toBe(plain)
  expect(unpacked(zip, 'b.gcode', size)).toBe(Buffer.from(two).toString('latin1'))
})

test('says what can not be unpacked', () => {
  const packed = gzipSync(one)
  expect(unpacked(packed.subarray(0, -3), null, 5)).toBe('container_truncated')
  const broken = Uint8Array.from(packed)
  broken[packed.length - 6]! ^= 1
  expect(unpacked(broken, null, 5)).toBe('container_corrupt')
  expect(unpacked(zip.subarray(0, -5), 'a.gcode', 5)).toBe('container_truncated')
})

test('a file shorter than any mark is handed on', () => {
  expect(unpacked(new Uint8Array([77, 56]), null, 1)).toBe('M8')
  expect(unpacked(new Uint8Array(0), null, 1)).toBe('')
})
