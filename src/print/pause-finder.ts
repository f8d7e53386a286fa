import { accept, type Outcome, type Refusal, refuse } from '../units/index.ts'
import { applyCommand } from './apply-command.ts'
import { FeedState } from './feed-state.ts'
import { type FirmwareFamily, type FirmwareFamilyId, firmwareFamilies } from './firmware-family.ts'
import { type Command, lexLine } from './lex-line.ts'
import { LineCutter } from './line-cutter.ts'
import { loopMark } from './loop-stack.ts'
import { askMove, isMove } from './move-words.ts'
import { ReadStop } from './read-stop.ts'
import type { PrintReading, ReadOptions } from './reading.ts'

/** Where a stop can stand: behind the last line on which a layer is drawn. */
export interface PausePlace {
  /** The layer that is finished before it, 1-based. */
  readonly layer: number
  /** Height at which that layer is drawn, mm. */
  readonly height_mm: number
  /** Where the stop goes in: bytes from the start of the machine code. */
  readonly byte: number
  /** The line it follows, 1-based. */
  readonly line: number
  /** The tool that drew last. */
  readonly tool: number
  /** As the line before it ends. */
  readonly lineEnd: '\n' | '\r\n' | '\r'
}

interface Window {
  readonly layer: number
  readonly from: number
  readonly to: number
}

/**
 * Looks in the machine code for the places where a person can be waited for: behind the last move
 * that draws the layer, before the nozzle is wiped, retracted or lifted for the next. There the
 * filament stands at the nozzle, so that unloading and purging leave no gap and no blob behind, and
 * what was drawn so far is the draw at the layer's end.
 *
 * Takes the bytes that were read before, in slices of any size; memory stays constant.
 *
 * @see docs/method/planned-changes.md
 */
export class PauseFinder {
  readonly #cutter: LineCutter
  readonly #family: FirmwareFamily
  readonly #eUnit: NonNullable<ReadOptions['eUnit']>
  readonly #reading: PrintReading
  readonly #state: FeedState
  readonly #wanted: readonly number[]
  readonly #windows: readonly Window[]
  readonly #places: PausePlace[] = []
  #at = 0
  #line = 0
  #candidate: PausePlace | null = null
  /** Times of the loops that are open. */
  readonly #loops: number[] = []
  #sawBlock = false
  /** Whether the last line drew. */
  #drew = false
  #refusal: Refusal | null = null

  /**
   * @param reading - of the same bytes by the family given
   * @param layers - that are to be finished before a stop, 1-based, in any order
   */
  constructor(
    reading: PrintReading,
    options: ReadOptions & { readonly firmware: FirmwareFamilyId },
    layers: readonly number[],
  ) {
    this.#reading = reading
    this.#family = firmwareFamilies.find(({ id }) => id === options.firmware)!
    this.#eUnit = options.eUnit ?? 'code'
    this.#state = new FeedState(options.diameter_mm, options.eMode)
    this.#state.volumetric = options.eUnit === 'mm3'
    this.#wanted = [...new Set(layers)].toSorted((a, b) => a - b)
    const ends = reading.layers.endByte
    this.#windows = this.#wanted.map((layer) => ({
      layer,
      from: layer === 1 ? 0 : ends[layer - 2]!,
      to: ends[layer - 1]!,
    }))
    this.#cutter = new LineCutter((...line) => this.#take(...line))
    this.#refusal = this.#impossible()
  }

  /** Why there is no place, as soon as that is known: no need to push more. */
  get refusal(): Refusal | null {
    return this.#refusal
  }

  push(slice: Uint8Array): void {
    if (this.#refusal === null && this.#at < this.#windows.length) this.#cutter.push(slice)
  }

  /**
   * @returns the places in the order of the file; refusals `no_layers`, `layer_out_of_range`,
   *   `pause_in_loop`, `pause_in_block`, `place_not_found`
   */
  finish(): Outcome<readonly PausePlace[]> {
    if (this.#refusal === null && this.#at < this.#windows.length) this.#cutter.finish()
    if (this.#refusal === null && this.#at < this.#windows.length) this.#lost()
    return this.#refusal === null ? accept(this.#places) : refuse(this.#refusal)
  }

  #impossible(): Refusal | null {
    const { count } = this.#reading.layers
    if (count < 2) {
      return {
        code: 'no_layers',
        message:
          'The print has no two layers, so there is no layer end to stop at. Stop it by hand, or cut the model.',
      }
    }
    const outside = this.#wanted.find(
      (layer) => !(Number.isInteger(layer) && layer >= 1 && layer < count),
    )
    if (outside !== undefined || this.#wanted.length === 0) {
      return {
        code: 'layer_out_of_range',
        message: `The print has ${count} layers: a stop can stand after layer 1 to ${count - 1}.`,
        expected: `1 to ${count - 1}`,
        received: `${outside ?? 'none'}`,
      }
    }
    const looped = this.#windows.find(({ from, to }) => to <= from)
    return looped === undefined ? null : inLoop(looped.layer)
  }

  #take(buf: Uint8Array, start: number, stop: number, byte: number, next: number): void {
    this.#line++
    let window = this.#windows[this.#at]
    if (window !== undefined && byte >= window.to) {
      this.#close(window)
      window = this.#windows[this.#at]
    }
    if (window === undefined || this.#refusal !== null) return
    const isInside = byte >= window.from
    if (!isInside && isPlainMove(buf, start, stop)) return
    let text = ''
    for (let i = start; i < stop; i++) text += String.fromCharCode(buf[i]!)
    this.#sawBlock ||= /^[ \t]*(?:if|elif|else|while)\b/.test(text)
    this.#drew = false
    for (const command of lexLine(text, this.#family)) this.#follow(command)
    if (isInside && this.#drew) {
      this.#candidate = {
        layer: window.layer,
        height_mm: this.#reading.layers.height_mm[window.layer - 1]!,
        byte: next,
        line: this.#line,
        tool: this.#state.tool,
        lineEnd: lineEndOf(next - byte - (stop - start), buf[stop]),
      }
      this.#check(window, text)
    }
  }

  #follow(command: Command): void {
    if (isMove(command)) {
      const { words } = command
      try {
        const feeds = askMove({ family: this.#family, state: this.#state }, command)
        const feed = feeds?.reduce((sum, each) => sum + each, 0) ?? 0
        const travels = ['X', 'Y', 'I', 'J', 'R'].some((axis) => words.get(axis)?.value != null)
        this.#drew ||= feed > 0 && travels
      } catch (error) {
        // The reader refused or passed over what this family can not take.
        if (!(error instanceof ReadStop)) throw error
      }
      return
    }
    const mark = loopMark(command)
    if (mark?.opens === true) this.#loops.push(mark.times)
    else if (mark !== null) this.#loops.pop()
    else applyCommand(this.#state, this.#family, command, this.#eUnit)
  }

  #check({ layer }: Window, text: string): void {
    if (this.#loops.some((times) => times !== 1)) this.#refusal = inLoop(layer)
    else if (this.#family.severalCommands && this.#sawBlock && /^[ \t]/.test(text)) {
      this.#refusal = {
        code: 'pause_in_block',
        message: `Layer ${layer} ends inside a block of the file’s own if or while, where a stop may not always come. Choose another layer.`,
      }
    }
  }

  #close(window: Window): void {
    if (this.#candidate === null || this.#candidate.byte > window.to) {
      this.#lost()
      return
    }
    this.#places.push(this.#candidate)
    this.#candidate = null
    this.#at++
  }

  #lost(): void {
    const layer = this.#windows[this.#at]!.layer
    this.#refusal ??= {
      code: 'place_not_found',
      message: `The end of layer ${layer} was not found again in the file: it may have changed since it was read, or repeats itself. Read it again, or choose another layer.`,
    }
  }
}

const inLoop = (layer: number): Refusal => ({
  code: 'pause_in_loop',
  message: `Layer ${layer} ends inside a part that the file repeats, where a stop would come again each time. Choose a layer outside, or write the file without loops.`,
})

/** A move as nearly all lines are: it decides nothing where nothing is looked for. */
const isPlainMove = (buf: Uint8Array, start: number, stop: number): boolean => {
  if (stop - start < 3 || buf[start] !== 0x47) return false
  const digit = buf[start + 1]!
  return digit >= 0x30 && digit <= 0x33 && buf[start + 2] === 0x20
}

const lineEndOf = (length: number, first: number | undefined): PausePlace['lineEnd'] => {
  if (length === 2) return '\r\n'
  return first === 13 ? '\r' : '\n'
}
