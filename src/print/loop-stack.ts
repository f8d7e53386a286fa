import { parameter } from './apply-command.ts'
import type { Command } from './lex-line.ts'
import { ReadStop } from './read-stop.ts'

const depthLimit = 8
const bodyLimit = 8 * 2 ** 20

/** Where a loop opens, and how often it asks to be run. */
export interface LoopStart {
  readonly times: number
  /** Byte and line at which the body begins. */
  readonly byte: number
  readonly line: number
  /** Lines replayed by loops before it. */
  readonly linesRun: number
  readonly buf: Uint8Array
  readonly from: number
}

interface OpenLoop extends Omit<LoopStart, 'buf' | 'from'> {
  /** The buffer being read that holds the rest of the body; null between buffers. */
  buf: Uint8Array | null
  from: number
  readonly parts: Uint8Array[]
  size: number
}

/** A closed loop with its body, ready to be replayed. */
export interface ClosedLoop extends Omit<LoopStart, 'buf' | 'from'> {
  readonly body: Uint8Array
}

/** Keeps the bytes of open loops, across slices, so that bodies can be read again exactly. */
export class LoopStack {
  readonly #open: OpenLoop[] = []

  get isOpen(): boolean {
    return this.#open.length > 0
  }

  /**
   * A buffer begins to be read: open loops go on in it. An LF before its first line ends a line of the
   * buffer before: it belongs to the body, unless that line opened the loop.
   */
  enter(buf: Uint8Array, from: number, firstLine: number): void {
    for (const loop of this.#open) {
      if (loop.buf !== null) continue
      loop.buf = buf
      loop.from = loop.size === 0 ? firstLine : from
    }
  }

  /** A buffer has been read: copies what open loops hold of it, as it may be reused. */
  leave(buf: Uint8Array, end: number): void {
    for (const loop of this.#open) {
      if (loop.buf !== buf) continue
      this.#keep(loop, buf.slice(loop.from, end))
      loop.buf = null
    }
  }

  #keep(loop: OpenLoop, part: Uint8Array): void {
    if (loop.times === 1) return
    loop.parts.push(part)
    loop.size += part.length
    if (loop.size > bodyLimit) {
      throw new ReadStop({
        code: 'loop_too_long',
        message: `A loop's body is longer than ${bodyLimit / 2 ** 20} MiB. Write the file without loops.`,
        line: loop.line,
      })
    }
  }

  open(start: LoopStart): void {
    const { line, times } = start
    if (!(times >= 1)) {
      throw new ReadStop({
        code: 'endless_loop',
        message:
          'The file repeats a part of itself without end, so its draw has no end either. Give the loop a count.',
        line,
      })
    }
    if (this.#open.length === depthLimit) {
      throw new ReadStop({
        code: 'loops_too_deep',
        message: `Loops stand more than ${depthLimit} deep in one another.`,
        line,
      })
    }
    this.#open.push({ ...start, times: Math.trunc(times), parts: [], size: 0 })
  }

  /** Closes the innermost loop at the line that begins at `to`; null when none is open. */
  close(buf: Uint8Array, to: number): ClosedLoop | null {
    const loop = this.#open.pop()
    if (loop === undefined) return null
    this.#keep(loop, buf.slice(loop.from, to))
    const body = new Uint8Array(loop.size)
    let at = 0
    for (const part of loop.parts) {
      body.set(part, at)
      at += part.length
    }
    return { times: loop.times, byte: loop.byte, line: loop.line, linesRun: loop.linesRun, body }
  }

  /** Line of a loop never closed that would have repeated; null when there is none. */
  unclosed(): number | null {
    return this.#open.find((loop) => loop.times > 1)?.line ?? null
  }
}

export interface LoopMark {
  /** False: closes one. */
  readonly opens: boolean
  readonly times: number
}

/** What a command does to loops: opens one, closes one, or (null) neither. */
export function loopMark({ letter, code, words, name, rest }: Command): LoopMark | null {
  if (letter === 'M' && code === 808) {
    return { opens: words.has('L'), times: words.get('L')?.value ?? 0 }
  }
  if (letter !== '') return null
  const upper = name.toUpperCase()
  if (upper === 'SDCARD_LOOP_BEGIN') {
    return { opens: true, times: Number.parseFloat(parameter(rest, 'COUNT') ?? '0') }
  }
  return upper === 'SDCARD_LOOP_END' ? { opens: false, times: 0 } : null
}
