import type { Command } from './lex-line.ts'
import { type LoopMark, LoopStack, loopMark } from './loop-stack.ts'
import { RangeLost } from './range-lost.ts'
import { ReadStop } from './read-stop.ts'
import type { ReaderState } from './reader-state.ts'

const lineRunBudget = 16_000_000
/** What beginning a pass of a loop costs besides its lines, in lines. */
const passCost = 16

/** Where the line of a loop's mark lies. */
export interface MarkPlace {
  readonly buf: Uint8Array
  readonly start: number
  /** Where the next line begins. */
  readonly next: number
}

/** Opens, closes and replays loops: a body is read again as often as its loop asks. */
export class LoopReplay {
  readonly stack: LoopStack = new LoopStack()
  readonly #state: ReaderState
  readonly #read: (body: Uint8Array) => void
  #linesRun = 0

  /** @param read - reads a loop's body once more */
  constructor(state: ReaderState, read: (body: Uint8Array) => void) {
    this.#state = state
    this.#read = read
  }

  /** True when the line was a loop's. */
  take(command: Command, place: MarkPlace): boolean {
    const mark = loopMark(command)
    if (mark === null) return false
    const state = this.#state
    state.set('commands', 1)
    state.remarks.findings.note('loop', state.base + place.start, state.line)
    if (state.inRange) throw new RangeLost()
    if (mark.opens) this.#open(mark, place)
    else this.#close(place)
    return true
  }

  #open({ times }: LoopMark, { buf, next }: MarkPlace): void {
    const { base, line } = this.#state
    const linesRun = this.#linesRun
    this.stack.open({ times, buf, from: next, byte: base + next, line, linesRun })
  }

  #close({ buf, start }: MarkPlace): void {
    const state = this.#state
    const loop = this.stack.close(buf, start)
    if (loop === null) return
    const pass = this.#linesRun - loop.linesRun + state.line - loop.line + passCost
    const linesRun = this.#linesRun + pass * (loop.times - 1)
    if (linesRun > lineRunBudget) {
      throw new ReadStop({
        code: 'too_many_lines',
        message: `The file's loops run more than ${lineRunBudget / 1e6} million lines: check the counts.`,
        line: loop.line,
      })
    }
    const { line, base, afterCR } = state
    state.afterCR = false
    for (let k = 1; k < loop.times; k++) {
      state.set('line', loop.line)
      state.base = loop.byte
      state.set('curveAt', loop.byte)
      state.set('beadAt', loop.byte)
      this.#read(loop.body)
    }
    state.set('line', line)
    state.base = base
    state.afterCR = afterCR
    this.#linesRun = linesRun
  }
}
