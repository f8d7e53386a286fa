import * as fc from 'fast-check'
import type { ReadOptions } from '../../src/print/index.ts'
import { disagreements } from './check-agreement.ts'
import { digest, readFast } from './fast-reading.ts'
import { makeRandom, printLike } from './print-like.ts'
import { randomOptions, randomProgram } from './random-program.ts'
import { readInRanges } from './read-in-ranges.ts'
import { twinRead } from './twin.ts'

/** What a run came to. */
export interface FuzzCount {
  programs: number
  lines: number
  refused: number
  /** Bytes that were read in ranges and folded. */
  folded: number
  bytes: number
}

export interface FuzzOrder {
  /** Lines to be read, at least. */
  readonly lines: number
  readonly seed: number
  /** Whole prints that are read first. */
  readonly prints?: readonly Uint8Array[]
  /** The reader's outcome, as `digest` tells it, where there is no WebAssembly. */
  readonly withoutKernel: (bytes: Uint8Array, options: ReadOptions) => string | Promise<string>
  readonly onProgress?: (count: FuzzCount) => void
}

/**
 * Gives random programs to four readers: the fast one, its slow twin, the fast one without its kernel,
 * and one for each of several ranges, folded. The last two must agree with the first to the last bit,
 * the one without its kernel in silhouette and time as well, the twin to its tolerance.
 *
 * @throws Error that names the seed and tells the program, where they disagree
 */
export const fuzzReaders = async (order: FuzzOrder): Promise<FuzzCount> => {
  const count: FuzzCount = { programs: 0, lines: 0, refused: 0, folded: 0, bytes: 0 }
  for (const bytes of order.prints ?? []) {
    // oxlint-disable-next-line no-await-in-loop -- one print after another
    await check(bytes, {}, makeRandom(order.seed), order, count, order.seed)
  }
  for (let seed = order.seed; count.lines < order.lines; seed++) {
    const random = makeRandom(seed)
    const [options] = fc.sample(randomOptions, { seed, numRuns: 1 }) as [ReadOptions]
    const some = { seed, numRuns: 20 }
    const programs =
      seed % 2 === 0
        ? fc.sample(randomProgram, some)
        : [printLike(seed, 200 + Math.floor(random() * 1800))]
    for (const bytes of programs) {
      // oxlint-disable-next-line no-await-in-loop -- one program after another
      await check(bytes, options, random, order, count, seed)
    }
    order.onProgress?.(count)
  }
  return count
}

const check = async (
  bytes: Uint8Array,
  options: ReadOptions,
  random: () => number,
  order: FuzzOrder,
  count: FuzzCount,
  seed: number,
): Promise<void> => {
  const fast = readFast(bytes, options)
  const told = digest(fast)
  const fail = (who: string, how: string): never => {
    const text = Buffer.from(bytes).toString('latin1')
    throw new Error(`${who}, seed ${seed}, ${JSON.stringify(options)}: ${how}\n${text}`)
  }
  const found = disagreements(fast, twinRead(bytes, options))
  if (found.length > 0) fail('the twin disagrees', found.slice(0, 8).join('\n'))
  if ((await order.withoutKernel(bytes, options)) !== told)
    fail('without the kernel', 'not the same')
  const drawn = { ...options, silhouette: true, motion: {} }
  if ((await order.withoutKernel(bytes, drawn)) !== digest(readFast(bytes, drawn)))
    fail('without the kernel, drawn and timed', 'not the same')
  const cuts = Array.from({ length: 1 + Math.floor(random() * 4) }, () =>
    Math.floor(random() * bytes.length),
  ).toSorted((a, b) => a - b)
  const slice = 1 + Math.floor(random() * 1500)
  const ranges = readInRanges(bytes, cuts, options, slice)
  if (digest(ranges.outcome) !== told)
    fail(`ranges cut at ${cuts.join()}, slices of ${slice}`, 'not the same')
  count.programs += 1
  count.lines += bytes.filter((byte) => byte === 10 || byte === 13).length
  count.bytes += bytes.length
  count.folded += ranges.folded
  if (!fast.ok) count.refused += 1
}
