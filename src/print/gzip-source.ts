import { type InflationMeter, stopContainer } from './container-limits.ts'
import { crc32 } from './crc32.ts'
import { HeldBytes } from './held-bytes.ts'
import { InflateStream } from './inflate-stream.ts'
import type { ContainerSource, PrintSink } from './print-sink.ts'

const flag = { headerCheck: 2, extra: 4, name: 8, remark: 16, reserved: 0xe0 }

/**
 * A gzip file: one member, or several that follow each other and count as one text.
 *
 * @see RFC 1952
 */
export class GzipSource implements ContainerSource {
  readonly #meter: InflationMeter
  readonly #sink: PrintSink
  readonly #held = new HeldBytes()
  #step: 'header' | 'data' | 'trailer' | 'padding' = 'header'
  #inflate: InflateStream
  #crc = 0
  #size = 0
  #members = 0

  constructor(meter: InflationMeter, sink: PrintSink) {
    this.#meter = meter
    this.#sink = sink
    this.#inflate = this.#begin()
    sink.open(null)
  }

  #begin(): InflateStream {
    this.#crc = 0
    this.#size = 0
    const stream = new InflateStream((bytes) => {
      this.#crc = crc32(bytes, this.#crc)
      this.#size += bytes.length
      this.#meter.count(bytes.length, this.#size, stream.taken)
      this.#sink.write(bytes)
    })
    return stream
  }

  push(bytes: Uint8Array): void {
    let rest = bytes
    while (rest.length > 0) {
      if (this.#step === 'data') {
        rest = rest.subarray(this.#inflate.push(rest))
        if (this.#inflate.ended) this.#step = 'trailer'
      } else if (this.#step === 'padding') {
        if (rest.some((byte) => byte !== 0)) {
          stopContainer(
            'container_corrupt',
            'Something other than compressed data follows in the gzip file. Compress or copy it again.',
          )
        }
        return
      } else {
        rest = this.#held.add(rest)
        if (this.#step === 'trailer') this.#readTrailer()
        else this.#readHeader()
        if (!this.#needsHeld()) rest = this.#held.release()
      }
    }
  }

  #needsHeld(): boolean {
    return this.#step === 'header' || this.#step === 'trailer'
  }

  #readTrailer(): void {
    const trailer = this.#held.take(8)
    if (trailer === null) return
    const view = new DataView(trailer.buffer, trailer.byteOffset, 8)
    if (view.getUint32(0, true) !== this.#crc || view.getUint32(4, true) !== this.#size >>> 0) {
      stopContainer(
        'container_corrupt',
        'The gzip file is damaged: its check sum does not fit. Compress or copy it again.',
      )
    }
    this.#members++
    this.#step = 'header'
    this.#readHeader()
  }

  #readHeader(): void {
    const head = this.#held.bytes
    if (this.#members > 0 && head[0] === 0) {
      // Some programs fill the last block with zeros.
      this.#step = 'padding'
      return
    }
    const length = headerLength(head)
    if (length === null) return
    this.#held.take(length)
    this.#inflate = this.#begin()
    this.#step = 'data'
  }

  finish(): void {
    const between = this.#step === 'header' && this.#members > 0 && this.#held.bytes.length === 0
    if (!between && this.#step !== 'padding') {
      stopContainer(
        'container_truncated',
        'The gzip file ends too early: it was cut short. Compress or copy it again.',
      )
    }
    this.#sink.close()
  }
}

/** Length of a gzip header, or null while it is not complete. */
function headerLength(head: Uint8Array): number | null {
  const start = [0x1f, 0x8b, 8]
  if (start.some((byte, i) => i < head.length && head[i] !== byte)) {
    stopContainer(
      'container_corrupt',
      'The gzip file is damaged: a part of it does not begin as it should. Compress or copy it again.',
    )
  }
  if (head.length < 10) return null
  const flags = head[3]!
  if (flags & flag.reserved) {
    stopContainer(
      'container_corrupt',
      'The gzip file uses flags that are not defined: it is damaged. Compress or copy it again.',
    )
  }
  let at = 10
  if (flags & flag.extra) {
    if (head.length < at + 2) return null
    at += 2 + (head[at]! | (head[at + 1]! << 8))
  }
  for (const text of [flag.name, flag.remark]) {
    if (!(flags & text)) continue
    const end = head.indexOf(0, at)
    if (end < 0 || at > head.length) return tooLongOrMore(head)
    at = end + 1
  }
  if (flags & flag.headerCheck) at += 2
  return at <= head.length ? at : null
}

/** A name in a header is short; one that never ends is damage. */
function tooLongOrMore(head: Uint8Array): null {
  if (head.length > 200_000) {
    stopContainer(
      'container_corrupt',
      'The gzip file is damaged: a name in it never ends. Compress or copy it again.',
    )
  }
  return null
}
