import {
  drawsTheSame,
  PausedCopy,
  PausedCopyCheck,
  PauseFinder,
  type PausePlace,
  type PlannedPause,
  type PrintReading,
  type ReadOptions,
  readPrint,
} from '../../src/print/index.ts'
import type { Outcome } from '../../src/units/index.ts'

type Options = ReadOptions & { readonly firmware: NonNullable<ReadOptions['firmware']> }

/** A copy that was made and read again. */
export interface CopyMade {
  readonly reading: PrintReading
  readonly places: readonly PausePlace[]
  readonly copy: Uint8Array
  readonly isSame: boolean
  /** The copy without its lines. */
  readonly without: Uint8Array
  readonly isSound: boolean
}

const cut = (bytes: Uint8Array, size: number): readonly Uint8Array[] => {
  const slices: Uint8Array[] = []
  for (let at = 0; at < bytes.length; at += size) slices.push(bytes.subarray(at, at + size))
  return slices
}

const joined = (parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts))

export const placesOf = (
  bytes: Uint8Array,
  options: Options,
  layers: readonly number[],
  size = 65_537,
): Outcome<readonly PausePlace[]> => {
  const reading = readPrint([bytes], options)
  if (!reading.ok) return reading
  const finder = new PauseFinder(reading.value, options, layers)
  for (const slice of cut(bytes, size)) finder.push(slice)
  return finder.finish()
}

/** Makes a copy as the command does, all in memory. @throws where a part of it is refused */
export const pausedCopyOf = (
  bytes: Uint8Array,
  options: Options,
  layers: readonly number[],
  size = 65_537,
): CopyMade => {
  const reading = readPrint([bytes], options)
  if (!reading.ok) throw new Error(reading.refusal.message)
  const places = placesOf(bytes, options, layers, size)
  if (!places.ok) throw new Error(places.refusal.message)
  const pauses = places.value.map((place): PlannedPause => ({ place, purpose: 'change' }))
  const writer = new PausedCopy(options.firmware, pauses)
  const copy = joined(cut(bytes, size).flatMap((slice) => writer.push(slice)))
  const check = new PausedCopyCheck(options.firmware, pauses)
  const without = joined(cut(copy, size).flatMap((slice) => check.push(slice)))
  const again = readPrint([copy], options)
  if (!again.ok) throw new Error(again.refusal.message)
  return {
    reading: reading.value,
    places: places.value,
    copy,
    isSame: writer.isWhole && drawsTheSame(reading.value, again.value),
    without,
    isSound: check.isSound,
  }
}
