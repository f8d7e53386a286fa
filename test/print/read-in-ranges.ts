import {
  PrintReader,
  type PrintReading,
  type RangeLog,
  RangeReader,
  type ReadOptions,
} from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'

/** How a file was read in ranges. */
export interface InRanges {
  readonly outcome: Outcome<PrintReading>
  /** Bytes that were folded and not read in order. */
  readonly folded: number
}

/**
 * Reads a file as several readers would that know nothing of each other: ranges between the cuts, each
 * behind the same head, folded in order.
 *
 * @param cuts - ascending bytes; what lies before the first is read in order
 * @param slice - bytes pushed at once
 */
export const readInRanges = (
  bytes: Uint8Array,
  cuts: readonly number[],
  options: ReadOptions = {},
  slice = 65_536,
): InRanges => {
  const logs = cuts.map((cut, k) => rangeOf(bytes, cuts[0] ?? 0, cut, cuts[k + 1], options, slice))
  const reader = new PrintReader(options)
  let at = 0
  let folded = 0
  const readTo = (end: number): void => {
    for (; at < end; at = Math.min(end, at + slice)) {
      reader.push(bytes.subarray(at, Math.min(end, at + slice)))
    }
  }
  for (const log of logs) {
    if (log === null || log.from < at) continue
    readTo(log.from)
    const reached = reader.fold(log)
    folded += reached - at
    at = reached
  }
  readTo(bytes.length)
  return { outcome: reader.finish(), folded }
}

const rangeOf = (
  bytes: Uint8Array,
  head: number,
  from: number,
  to: number = bytes.length,
  options: ReadOptions = {},
  slice = 65_536,
): RangeLog | null => {
  const ranges = new RangeReader(options)
  ranges.head(bytes.subarray(0, head))
  ranges.begin(from)
  for (let at = from; at < to; at += slice) {
    ranges.push(bytes.subarray(at, Math.min(to, at + slice)))
  }
  return ranges.finish()
}
