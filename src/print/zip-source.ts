import { type InflationMeter, stopContainer } from './container-limits.ts'
import { crc32 } from './crc32.ts'
import { HeldBytes } from './held-bytes.ts'
import { InflateStream } from './inflate-stream.ts'
import type { ContainerSource, PrintSink } from './print-sink.ts'
import {
  corrupt,
  type ZipMember,
  zipDescriptor,
  zipMember,
  zipSignature,
  zipTail,
} from './zip-record.ts'

const printName = /\.(?:gcode|gco|g|nc)$/i
/** Side files that some systems put beside each member. */
const sideFile = /(?:^|\/)(?:__MACOSX\/|\._)/

/**
 * A zip read from its beginning to its end, without looking into its directory first: each member
 * whose name ends like a print's is a print.
 *
 * @see PKWARE APPNOTE.TXT, 4.3 (from memory)
 */
export class ZipSource implements ContainerSource {
  readonly #meter: InflationMeter
  readonly #sink: PrintSink
  readonly #held = new HeldBytes()
  #step: 'record' | 'data' | 'descriptor' | 'tail' | 'end' = 'record'
  #member: ZipMember | null = null
  #inflate: InflateStream | null = null
  #isPrint = false
  #crc = 0
  #size = 0
  #packed = 0
  #members = 0
  #listed = 0
  #prints = 0

  constructor(meter: InflationMeter, sink: PrintSink) {
    this.#meter = meter
    this.#sink = sink
  }

  push(bytes: Uint8Array): void {
    let rest = bytes
    while (rest.length > 0) {
      if (this.#step === 'end') return
      if (this.#inData()) {
        rest = this.#takeData(rest)
        continue
      }
      rest = this.#held.add(rest)
      while (this.#readRecord()) {
        /* one record after another, as long as they are complete */
      }
      if (this.#inData()) rest = this.#held.release()
    }
  }

  #inData(): boolean {
    return this.#step === 'data'
  }

  /** @returns true when a record was complete and another may follow in what is held */
  #readRecord(): boolean {
    switch (this.#step) {
      case 'record':
        return this.#readMember()
      case 'descriptor':
        return this.#readDescriptor()
      case 'tail':
        return this.#readTail()
      case 'data':
      case 'end':
        return false
      default:
        return this.#step satisfies never
    }
  }

  #readMember(): boolean {
    const head = this.#held.bytes
    if (head.length < 4) return false
    if (signatureOf(head) !== zipSignature.member) {
      this.#step = 'tail'
      return true
    }
    const member = zipMember(head)
    if (member === null) return false
    if (++this.#members > this.#meter.limits.members) {
      stopContainer(
        'container_too_many_members',
        `The zip has more than ${this.#meter.limits.members} files in it. Zip only the print, or unpack it and give the machine code.`,
      )
    }
    this.#held.take(member.length)
    this.#open(member)
    return this.#step !== 'data'
  }

  #open(member: ZipMember): void {
    this.#member = member
    this.#isPrint = printName.test(member.name) && !sideFile.test(member.name)
    this.#crc = 0
    this.#size = 0
    this.#packed = 0
    this.#inflate =
      member.method === 8 && (this.#isPrint || member.described)
        ? new InflateStream((bytes) => this.#take(bytes, this.#inflate!.taken))
        : null
    if (this.#isPrint) {
      this.#prints++
      this.#sink.open(member.name)
    }
    this.#step = 'data'
    if (this.#inflate === null && member.packed === 0) this.#endData()
  }

  #take(bytes: Uint8Array, packed: number): void {
    this.#size += bytes.length
    this.#meter.count(bytes.length, this.#size, packed)
    this.#crc = crc32(bytes, this.#crc)
    if (this.#isPrint) this.#sink.write(bytes)
  }

  /** @returns what does not belong to the member's data */
  #takeData(bytes: Uint8Array): Uint8Array {
    const member = this.#member!
    const left = member.described ? bytes.length : member.packed - this.#packed
    const part = bytes.subarray(0, left)
    if (this.#inflate !== null) {
      const taken = this.#inflate.push(part)
      this.#packed += taken
      if (this.#inflate.ended) this.#endData()
      else if (!member.described && this.#packed === member.packed) corrupt()
      return bytes.subarray(taken)
    }
    if (this.#isPrint) this.#take(part, this.#packed + part.length)
    this.#packed += part.length
    if (this.#packed === member.packed) this.#endData()
    return bytes.subarray(part.length)
  }

  #endData(): void {
    const member = this.#member!
    if (member.described) {
      this.#step = 'descriptor'
      return
    }
    if (this.#packed !== member.packed) corrupt()
    if (this.#isPrint) this.#check(member)
    this.#close()
  }

  #readDescriptor(): boolean {
    const found = zipDescriptor(this.#held.bytes, this.#member!.wide)
    if (found === null) return false
    this.#held.take(found.length)
    if (found.packed !== this.#packed) corrupt()
    this.#check(found)
    this.#close()
    return true
  }

  #check({ crc, size }: { readonly crc: number; readonly size: number }): void {
    if (crc !== this.#crc || size !== this.#size) {
      stopContainer(
        'container_corrupt',
        `"${this.#member!.name}" in the zip is damaged: its check sum does not fit. Zip or copy it again.`,
      )
    }
  }

  #close(): void {
    if (this.#isPrint) this.#sink.close()
    this.#member = null
    this.#step = 'record'
  }

  #readTail(): boolean {
    const head = this.#held.bytes
    if (head.length < 4) return false
    const record = zipTail(head)
    if (record === null || this.#held.take(record.length) === null) return false
    if (record.disk > 0) {
      stopContainer(
        'container_multi_part',
        'The zip is one of several parts. Join or unpack them and give the machine code.',
      )
    }
    if (signatureOf(head) === zipSignature.directory) this.#listed++
    if (record.last) this.#step = 'end'
    return !record.last
  }

  finish(): void {
    if (this.#step !== 'end') {
      stopContainer(
        'container_truncated',
        'The zip ends too early: it was cut short. Zip or copy it again.',
      )
    }
    if (this.#listed !== this.#members) corrupt()
    if (this.#prints === 0) {
      stopContainer(
        'no_print_in_zip',
        'No file in the zip ends in .gcode, .gco, .g or .nc. Give the machine code of the print.',
      )
    }
  }
}

const signatureOf = (head: Uint8Array): number =>
  new DataView(head.buffer, head.byteOffset, 4).getUint32(0, true)
