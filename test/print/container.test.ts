import { deflateRawSync, gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { knob } from '../../demo/prints/knob.ts'
import {
  type ContainerLimits,
  containerLimits,
  type PrintFile,
  PrintFileReader,
  type PrintReading,
  readPrint,
  readPrintFile,
} from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'
import { type MemberToPack, zipOf } from '../zip-of.ts'

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text)
const small = bytesOf('G1 X10 Y0 Z0.2 E1\nG1 X20 Y0 E2.5\nG1 X30 Y5 E3\n')
const code = bytesOf(knob.write())

const plainReading = (bytes: Uint8Array): PrintReading => {
  const outcome = readPrint([bytes])
  if (!outcome.ok) throw new Error(outcome.refusal.message)
  return outcome.value
}

const read = (bytes: Uint8Array, limits?: ContainerLimits): Outcome<PrintFile> =>
  readPrintFile([bytes], {}, limits)

/** The same bytes in two slices, and byte by byte. */
function* cuts(bytes: Uint8Array): Generator<readonly Uint8Array[]> {
  for (let at = 1; at < bytes.length; at++) yield [bytes.subarray(0, at), bytes.subarray(at)]
  yield Array.from(bytes, (byte) => Uint8Array.of(byte))
}

const codeOf = (outcome: Outcome<PrintFile>): string => (outcome.ok ? 'read' : outcome.refusal.code)

const member = (
  name: string,
  bytes: Uint8Array,
  more: Partial<MemberToPack> = {},
): MemberToPack => ({
  name,
  bytes,
  ...more,
})

const alone: PrintFile = {
  container: 'plain',
  prints: [{ name: null, reading: plainReading(small) }],
}
const inGzip: PrintFile = { ...alone, container: 'gzip' }
const inZip: PrintFile = {
  container: 'zip',
  prints: ['plates/One.GCODE', 'zwei-ü.gco'].map((name) => ({
    name,
    reading: plainReading(small),
  })),
}
const zipKinds = ['deflated', 'stored', 'described', 'described, wide, no mark', 'wide'] as const

const wellFormed: readonly (readonly [string, Uint8Array, PrintFile])[] = [
  ['plain', small, alone],
  ['gzip', gzipSync(small), inGzip],
  [
    'gzip of two members',
    Buffer.concat([gzipSync(small.subarray(0, 20)), gzipSync(small.subarray(20))]),
    inGzip,
  ],
  ['gzip with zeros after it', Buffer.concat([gzipSync(small), new Uint8Array(30)]), inGzip],
  ['gzip, stored blocks', gzipSync(small, { level: 0 }), inGzip],
  ...zipKinds.map(
    (kind) =>
      [
        `zip, ${kind}`,
        zipOf([
          member('readme.txt', bytesOf('nothing to print\n'), { kind }),
          member('plates/', new Uint8Array(0)),
          member('plates/One.GCODE', small, { kind }),
          member('__MACOSX/plates/._One.gcode', Uint8Array.of(0, 5, 22, 7), { kind }),
          member('zwei-ü.gco', small, { kind }),
        ]),
        inZip,
      ] as const,
  ),
]

describe.each(wellFormed)('%s', (_, bytes, file) => {
  test('reads', () => {
    expect(read(bytes)).toEqual({ ok: true, value: file })
  })
  test('reads the same wherever it is cut', () => {
    for (const slices of cuts(bytes)) {
      expect(readPrintFile(slices)).toEqual({ ok: true, value: file })
    }
  })
  test('slices may be reused', () => {
    const reader = new PrintFileReader()
    const slice = new Uint8Array(7)
    for (let at = 0; at < bytes.length; at += slice.length) {
      const part = bytes.subarray(at, at + slice.length)
      slice.set(part)
      reader.push(slice.subarray(0, part.length))
      slice.fill(255)
    }
    expect(reader.finish()).toEqual({ ok: true, value: file })
  })
})

test('a real print reads the same plain, in gzip and in zip', () => {
  const reading = plainReading(code)
  const gzip = read(gzipSync(code))
  const zip = read(zipOf([member('knob.gcode', code, { kind: 'described' })]))
  expect(gzip.ok && gzip.value.prints[0]?.reading).toEqual(reading)
  expect(zip.ok && zip.value.prints[0]?.reading).toEqual(reading)
})

test('a print that compresses well is no bomb, however it is handed over', () => {
  const moves = Array.from(
    { length: 200_000 },
    (_, i) => `G1 X${(i * 37) % 97}.5 Y${(i * 11) % 89}.25 E0.04321\n`,
  )
  const even = bytesOf(`M83\nG1 Z0.2\n${moves.join('')}`)
  const packed = gzipSync(even)
  expect(even.length).toBeGreaterThan(4_000_000)
  expect(even.length / packed.length).toBeGreaterThan(6)
  expect(codeOf(readPrintFile([packed]))).toBe('read')
  expect(codeOf(readPrintFile([packed.subarray(0, 9000), packed.subarray(9000)]))).toBe('read')
})

describe('cut short', () => {
  test.each([
    ['gzip', gzipSync(small)],
    ['zip', zipOf([member('a.gcode', small)])],
    ['zip, described', zipOf([member('a.gcode', small, { kind: 'described' })])],
    ['zip, stored', zipOf([member('a.gcode', small, { kind: 'stored' })])],
  ])('%s, at every byte', (_, bytes) => {
    for (let at = 5; at < bytes.length; at++) {
      expect([at, codeOf(read(bytes.subarray(0, at)))]).toEqual([at, 'container_truncated'])
    }
  })
})

describe('damaged', () => {
  test.each([
    ['gzip', gzipSync(small)],
    ['zip', zipOf([member('a.gcode', small)])],
    ['zip, described', zipOf([member('a.gcode', small, { kind: 'described' })])],
  ])('%s: a flipped bit is never read as something else', (_, bytes) => {
    const truth = read(bytes)
    for (let at = 4; at < bytes.length; at++) {
      for (const bit of [1, 16, 128]) {
        const damaged = Uint8Array.from(bytes)
        damaged[at] = damaged[at]! ^ bit
        const outcome = read(damaged)
        // Names, dates and such may change without harm to what is read.
        if (outcome.ok) {
          expect(outcome.value.prints.map(({ reading }) => reading)).toEqual(
            truth.ok && truth.value.prints.map(({ reading }) => reading),
          )
        } else expect(outcome.refusal.message).toMatch(/\.$/)
      }
    }
  })

  test('rubbish after a gzip member', () => {
    expect(codeOf(read(Buffer.concat([gzipSync(small), bytesOf('and more')])))).toBe(
      'container_corrupt',
    )
  })

  test('a member that the directory does not list', () => {
    const bytes = zipOf([member('a.gcode', small), member('b.gcode', small)], { listed: 1 })
    expect(codeOf(read(bytes))).toBe('container_corrupt')
  })
})

describe('refused', () => {
  const limits = { ...containerLimits, members: 20, bytes: 3_000_000 }
  const zeros = new Uint8Array(4_000_000).fill(10)
  const cases: readonly (readonly [string, Uint8Array, ContainerLimits | undefined])[] = [
    ['container_bomb', gzipSync(zeros), undefined],
    ['container_bomb', zipOf([member('a.gcode', zeros)]), undefined],
    ['container_bomb', zipOf([member('a.gcode', zeros, { kind: 'described' })]), undefined],
    ['container_bomb', zipOf([member('big.txt', zeros, { kind: 'described' })]), undefined],
    ['container_bomb', gzipSync(Buffer.concat([small, zeros]), { level: 0 }), limits],
    [
      'container_bomb',
      zipOf(
        [1, 2, 3, 4].map((i) =>
          member(`${i}.g`, Buffer.concat([small, zeros.subarray(0, 990_000)])),
        ),
      ),
      limits,
    ],
    [
      'container_too_many_members',
      zipOf(Array.from({ length: 21 }, (_, i) => member(`${i}.txt`, small))),
      limits,
    ],
    [
      'container_too_many_members',
      zipOf(Array.from({ length: 1001 }, () => member('', new Uint8Array(0), { kind: 'stored' }))),
      undefined,
    ],
    ['container_encrypted', zipOf([member('a.gcode', small, { flags: 1 })]), undefined],
    ['container_unsupported', zipOf([member('a.gcode', small, { method: 93 })]), undefined],
    ['container_nested', gzipSync(gzipSync(small)), undefined],
    ['container_nested', zipOf([member('a.gcode', gzipSync(small))]), undefined],
    ['container_nested', gzipSync(zipOf([member('a.gcode', small)])), undefined],
    ['container_multi_part', Uint8Array.of(0x50, 0x4b, 7, 8, 0, 0), undefined],
    ['container_multi_part', zipOf([member('a.gcode', small)], { disk: 1 }), undefined],
    ['no_print_in_zip', zipOf([member('a.txt', small)]), undefined],
    ['no_print_in_zip', zipOf([]), undefined],
    ['empty', zipOf([member('a.gcode', new Uint8Array(0), { kind: 'stored' })]), undefined],
    ['empty', gzipSync(new Uint8Array(0)), undefined],
    ['not_machine_code', gzipSync(Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 1, 2)), undefined],
    ['empty', new Uint8Array(0), undefined],
    ['no_machine_code', bytesOf('PK'), undefined],
  ]
  test.each(cases)('%s', (refusal, bytes, limit) => {
    expect(codeOf(read(bytes, limit))).toBe(refusal)
    const outcome = read(bytes, limit)
    if (!outcome.ok) expect(outcome.refusal.message.length).toBeGreaterThan(30)
  })

  test('a member that is refused is named', () => {
    const outcome = read(zipOf([member('a.gcode', small), member('b.gcode', bytesOf('hello'))]))
    expect(outcome.ok ? '' : outcome.refusal.message).toMatch(/^"b\.gcode": /)
  })

  test('nothing more is read once it is refused', () => {
    const reader = new PrintFileReader()
    reader.push(gzipSync(gzipSync(small)))
    expect(reader.refusal?.code).toBe('container_nested')
    reader.push(small)
    expect(codeOf(reader.finish())).toBe('container_nested')
  })
})

test('a bomb is left long before it is unpacked', () => {
  const packed = deflateRawSync(new Uint8Array(64_000_000).fill(10))
  const before = process.memoryUsage().rss
  expect(codeOf(read(zipOf([member('a.gcode', packed, { method: 8 })])))).toBe('container_bomb')
  expect(process.memoryUsage().rss - before).toBeLessThan(100_000_000)
})
