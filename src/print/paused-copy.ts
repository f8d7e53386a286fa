import type { FirmwareFamilyId } from './firmware-family.ts'
import { type PausePurpose, pauseCommand } from './pause-command.ts'
import type { PausePlace } from './pause-finder.ts'
import type { PrintReading } from './reading.ts'

/** A stop that goes into a copy. */
export interface PlannedPause {
  readonly place: PausePlace
  readonly purpose: PausePurpose
  /** What to do at it, for whoever reads the file; only printable ASCII of it is kept. */
  readonly note?: string
}

/** The line that is put in, its end included. By `; reelreckon:` it is known again. */
export const pauseLine = (
  firmware: FirmwareFamilyId,
  { place, purpose, note = '' }: PlannedPause,
): string => {
  const { code } = pauseCommand(firmware, purpose)
  const said = plain(note)
  const words = `after layer ${place.layer}${said === '' ? '' : `, ${said}`}`
  return `${code} ; reelreckon: ${words}${place.lineEnd}`
}

/** What every firmware can take in a remark: some stop at a byte that is not ASCII, or cut long lines. */
const plain = (note: string): string =>
  note
    .replaceAll(/[^\u0020-\u003a\u003c-\u007e]+/g, ' ')
    .replaceAll(/ +/g, ' ')
    .trim()
    .slice(0, longestNote)
    .trim()

/** Some boards cut lines at 95 bytes. */
const longestNote = 48

/** Where a line stands in the copy, bytes. */
interface Inserted {
  readonly byte: number
  readonly bytes: Uint8Array
}

const inserted = (
  firmware: FirmwareFamilyId,
  pauses: readonly PlannedPause[],
): readonly Inserted[] =>
  pauses
    .toSorted((a, b) => a.place.byte - b.place.byte)
    .map((pause) => ({
      byte: pause.place.byte,
      bytes: Uint8Array.from(pauseLine(firmware, pause), (sign) => sign.charCodeAt(0)),
    }))

/** Puts the lines in while the machine code goes by, everything else byte for byte. */
export class PausedCopy {
  readonly #lines: readonly Inserted[]
  #next = 0
  #at = 0

  constructor(firmware: FirmwareFamilyId, pauses: readonly PlannedPause[]) {
    this.#lines = inserted(firmware, pauses)
  }

  /** @returns what to write, in order: parts of the slice, and lines of its own */
  push(slice: Uint8Array): readonly Uint8Array[] {
    const parts: Uint8Array[] = []
    let from = 0
    for (;;) {
      const line = this.#lines[this.#next]
      const place = line === undefined ? Infinity : line.byte - this.#at
      // At the very end of a slice it waits: a file cut short there gets no line.
      if (line === undefined || place >= slice.length) break
      parts.push(slice.subarray(from, place), line.bytes)
      from = place
      this.#next++
    }
    parts.push(slice.subarray(from))
    this.#at += slice.length
    return parts.filter(({ length }) => length > 0)
  }

  /** Whether all lines went in. */
  get isWhole(): boolean {
    return this.#next === this.#lines.length
  }
}

/** Takes the lines out of a copy again, and sees that they are where and what they should be. */
export class PausedCopyCheck {
  readonly #lines: readonly Inserted[]
  #next = 0
  /** Bytes of the original that went by, and of the line that is being compared. */
  #at = 0
  #matched = 0
  #differs = false

  constructor(firmware: FirmwareFamilyId, pauses: readonly PlannedPause[]) {
    this.#lines = inserted(firmware, pauses)
  }

  /** @returns what is left of the slice without the lines, in order */
  push(slice: Uint8Array): readonly Uint8Array[] {
    const parts: Uint8Array[] = []
    let from = 0
    while (from < slice.length) {
      const line = this.#lines[this.#next]
      const before = line === undefined ? Infinity : line.byte - this.#at
      if (line !== undefined && before === 0) {
        const length = Math.min(line.bytes.length - this.#matched, slice.length - from)
        for (let i = 0; i < length; i++) {
          if (slice[from + i] !== line.bytes[this.#matched + i]) this.#differs = true
        }
        this.#matched += length
        from += length
        if (this.#matched < line.bytes.length) break
        this.#next++
        this.#matched = 0
        continue
      }
      const length = Math.min(before, slice.length - from)
      parts.push(slice.subarray(from, from + length))
      this.#at += length
      from += length
    }
    return parts
  }

  /** Whether every line was there. What is between them must be held against the original. */
  get isSound(): boolean {
    return !this.#differs && this.#next === this.#lines.length
  }
}

/**
 * Whether two readings draw the same: every tool's peak, net, start macro and draw at each layer end,
 * and the layers' heights, to the last bit.
 */
export const drawsTheSame = (one: PrintReading, other: PrintReading): boolean =>
  one.families.length === other.families.length &&
  sameColumn(one.layers.height_mm, other.layers.height_mm) &&
  one.families.every(({ tools }, place) => {
    const others = other.families[place]!.tools
    return (
      tools.length === others.length &&
      tools.every((tool, k) => {
        const same = others[k]!
        return (
          tool.tool === same.tool &&
          tool.peak_mm === same.peak_mm &&
          tool.net_mm === same.net_mm &&
          tool.startMacro_mm === same.startMacro_mm &&
          sameColumn(tool.layerEnd_mm, same.layerEnd_mm)
        )
      })
    )
  })

const sameColumn = (one: Float64Array, other: Float64Array): boolean =>
  one.length === other.length && one.every((value, k) => value === other[k])
