import { expect, test, vi } from 'vitest'
import { digest } from './fast-reading.ts'
import { fuzzReaders } from './fuzz-readers.ts'

/** As in an engine that has no WebAssembly. */
const readerWithoutKernel = async (): Promise<typeof import('../../src/print/index.ts')> => {
  vi.resetModules()
  vi.stubGlobal('WebAssembly', undefined)
  try {
    const reader = await import('../../src/print/index.ts')
    reader.readPrint([new TextEncoder().encode('M83\nG1 X1 E1\n')])
    return reader
  } finally {
    vi.unstubAllGlobals()
  }
}

// `node test/print/fuzz-command.ts` does the same with a million lines.
test('fast, slow, without WebAssembly and in ranges agree on ten thousand lines', async () => {
  const { readPrint } = await readerWithoutKernel()
  const count = await fuzzReaders({
    lines: 10_000,
    seed: 20_261_129,
    withoutKernel: (bytes, options) => digest(readPrint([bytes], options)),
  })
  expect(count.lines).toBeGreaterThanOrEqual(10_000)
  expect(count.folded / count.bytes).toBeGreaterThan(0.05)
  expect(count.refused).toBeLessThan(count.programs / 2)
})

test('a reader that disagrees is found', async () => {
  const order = { lines: 500, seed: 1, withoutKernel: () => 'something else' }
  await expect(fuzzReaders(order)).rejects.toThrow('without the kernel')
})
