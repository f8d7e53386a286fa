import { expect, test, vi } from 'vitest'
import { toBytes } from './case.ts'
import { cases } from './cases.ts'
import { digest } from './fast-reading.ts'

/** The reader as an engine without WebAssembly would run it. */
async function readerWithoutKernel(): Promise<typeof import('../../src/print/index.ts')> {
  vi.resetModules()
  vi.stubGlobal('WebAssembly', undefined)
  try {
    const reader = await import('../../src/print/index.ts')
    // The kernel is looked for once, on the first reading.
    reader.readPrint([new TextEncoder().encode('M83\nG1 X1 E1\n')])
    return reader
  } finally {
    vi.unstubAllGlobals()
  }
}

test('every case reads the same without the kernel', async () => {
  const withKernel = await import('../../src/print/index.ts')
  const without = await readerWithoutKernel()
  expect(without.readPrint).not.toBe(withKernel.readPrint)
  for (const { name, code, options } of cases) {
    const bytes = toBytes(code)
    for (const more of [{}, { silhouette: true }, { motion: {} }]) {
      expect(digest(without.readPrint([bytes], { ...options, ...more })), name).toBe(
        digest(withKernel.readPrint([bytes], { ...options, ...more })),
      )
    }
  }
})

test('a way that is off the grid in one side view is drawn in neither', async () => {
  const withKernel = await import('../../src/print/index.ts')
  const without = await readerWithoutKernel()
  // Y is 75.5E11 to that family.
  const way = 'G1 X32.6 Y163.9 E3\nG1 X174.6 Y119.7 Z0.40 E2\nG1X97.4Y75.5E11.4859\nG1 X0 E0.5\n'
  const bytes = new TextEncoder().encode(`M83\n${way}`)
  const options = { firmware: 'meta', silhouette: true } as const
  expect(digest(withKernel.readPrint([bytes], options))).toBe(
    digest(without.readPrint([bytes], options)),
  )
})
