import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { eachSlice } from '../../src/app/reading/each-slice.ts'

/** As in a browser that gives a file's bytes only into room of its own. */
const withoutOwnRoom = (file: Blob): Blob => {
  const stream = (): ReadableStream => {
    let from = 0
    return new ReadableStream({
      pull: async (control) => {
        const part = file.slice(from, from + 100_000)
        from += part.size
        if (part.size === 0) control.close()
        else control.enqueue(new Uint8Array(await part.arrayBuffer()))
      },
    })
  }
  return Object.assign(new Blob(), { stream })
}

const slicesOf = async (file: Blob): Promise<readonly Uint8Array[]> => {
  const slices: Uint8Array[] = []
  await eachSlice(file, (slice) => {
    slices.push(slice.slice())
    return true
  })
  return slices
}

describe.each([
  ['into room of one’s own', (file: Blob) => file],
  ['into room of the browser’s', withoutOwnRoom],
] as const)('bytes %s', (_, as) => {
  test('come in order, all of them', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 50_000 }), async (bytes) => {
        const slices = await slicesOf(as(new Blob([bytes])))
        expect(Buffer.concat(slices).equals(Buffer.from(bytes))).toBe(true)
      }),
      { numRuns: 30 },
    )
  })

  test('of a file larger than the room', async () => {
    const bytes = new Uint8Array(5_000_001).map((_zero, at) => (at * 7919) >> 3)
    const slices = await slicesOf(as(new Blob([bytes])))
    expect(slices.length).toBeGreaterThan(1)
    expect(Buffer.concat(slices).equals(Buffer.from(bytes))).toBe(true)
  })

  test('end where nobody wants more', async () => {
    let count = 0
    await eachSlice(as(new Blob([new Uint8Array(5_000_000)])), () => ++count < 2)
    expect(count).toBe(2)
  })
})

test('a browser that stops to hand over in the middle is asked anew for what is left', async () => {
  const bytes = new Uint8Array(3_000_001).map((_zero, at) => (at * 7919) >> 3)
  const whole = new Blob([bytes])
  let cancelled = 0
  const stream = (): ReadableStream => {
    let from = 0
    return new ReadableStream({
      pull: (control) => {
        if (from >= 1_200_000) return new Promise(() => {})
        control.enqueue(bytes.slice(from, from + 400_000))
        from += 400_000
        return undefined
      },
      cancel: () => void cancelled++,
    })
  }
  const file = Object.assign(new Blob(), { stream, slice: (from: number) => whole.slice(from) })
  const slices = await slicesOf(file)
  expect(Buffer.concat(slices).equals(Buffer.from(bytes))).toBe(true)
  expect(cancelled).toBe(1)
})
