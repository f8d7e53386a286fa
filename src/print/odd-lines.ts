import { applyCommand } from './apply-command.ts'
import type { CurveLooks } from './curve-looks.ts'
import { type FamilyLine, familyLine, touchesDraw } from './family-line.ts'
import { type Command, lexLine, plainLexing } from './lex-line.ts'
import { overBudget, tooLong } from './line-budget.ts'
import { motionLine } from './motion-line.ts'
import type { MoveTaker } from './move-taker.ts'
import { checkOrigin, feedMove, type Head, isMove, originOf } from './move-words.ts'
import { fromPicometres } from './picometres.ts'
import { ReadStop } from './read-stop.ts'
import type { ReaderState } from './reader-state.ts'
import type { Where } from './remarks.ts'
import { isHeating, isHoming, SettingUp } from './setting-up.ts'

/**
 * Reads lines of any kind as text, as each firmware family would: slowly and completely. Plain lines,
 * too, where there is no kernel.
 */
export class OddLines {
  toolChanges = 0
  readonly #state: ReaderState
  readonly #moves: MoveTaker
  readonly #looks: CurveLooks
  readonly #settingUp = new SettingUp()

  constructor(state: ReaderState, moves: MoveTaker, looks: CurveLooks) {
    this.#state = state
    this.#moves = moves
    this.#looks = looks
  }

  /** @throws ReadStop where no printer takes the line */
  refuseBad(text: string, byte: number): void {
    const { line } = this.#state
    const nul = text.indexOf('\0')
    if (nul >= 0) {
      throw new ReadStop({
        code: 'nul_byte',
        message:
          'The file holds NUL bytes: it is damaged, half written, or no machine code. Export or copy it again.',
        at: byte + nul,
        line,
      })
    }
    if (overBudget(text)) throw tooLong(byte, line)
  }

  /**
   * Reads a line that is not refused.
   *
   * @param byte - where it begins
   * @param loop - is given the line's command first; true when it was a loop's
   */
  read(text: string, byte: number, loop: (command: Command) => boolean): void {
    if (this.#readForTime(text)) return
    const state = this.#state
    const line = familyLine(text, state.families)
    for (const command of line.perFamily[0] ?? []) this.#remark(command, text, byte)
    const [plain] = lexLine(text, plainLexing)
    if (plain !== undefined && loop(plain)) return
    if (!line.all.some(touchesDraw)) return
    if (line.all.some((command) => isMove(command) || isOrigin(command))) {
      state.set('commands', 1)
      state.remarks.oddMove(text, byte, state.line)
    }
    line.all.forEach(checkOrigin)
    this.#applyEach(line, byte)
  }

  /** G92 with an E number. */
  origin(value: number): void {
    this.#setUp(false)
    this.#state.tracks.setOrigin(value)
  }

  /** Reads a line that counts for time alone. */
  #readForTime(text: string): boolean {
    const { clock, feed } = this.#state
    const command = clock === null ? null : motionLine(text)
    if (command === null) return false
    this.#state.set('commands', 1)
    clock?.command(command, feed.tool)
    return true
  }

  /** Notes a command, and takes a step of setting up. */
  #remark(command: Command, text: string, byte: number): void {
    const { letter, code, words } = command
    const state = this.#state
    const { tool } = state.feed
    if (letter !== '') state.set('commands', 1)
    if (letter === 'T' && code >= 0 && code < 100 && code !== tool) this.toolChanges++
    state.remarks.command(command, text, () => this.#where(byte))
    if (!isMove(command)) state.clock?.command(command, tool)
    if (isHoming(command) || isHeating(command)) this.#setUp(true)
    else if (letter === 'M' && (code === 82 || code === 83)) this.#setUp(false)
    else if (isOrigin(command) && words.get('E')?.value != null) this.#setUp(false)
  }

  #where(byte: number): Where {
    const { line, layers, height, feed, ask } = this.#state
    return { byte, line, layer: layers.count, height_mm: height, draw_mm: feed.peaks(), ask }
  }

  /** A step of setting up: while it counts, what was drawn so far is start macro. */
  #setUp(hard: boolean): void {
    const state = this.#state
    const drawn = {
      extruding: state.count('extruding'),
      arcs: state.count('extrudingArcs'),
      layers: state.layers.count,
    }
    if (this.#settingUp.counts(hard, drawn)) state.forgetLayers()
  }

  /** Applies a line's commands to each family's state, then joins the states that are equal. */
  #applyEach({ perFamily, alone }: FamilyLine, byte: number): void {
    const { tracks } = this.#state
    if (alone !== undefined && isMove(alone)) {
      this.#moves.take(tracks.heads(), byte, () => alone, this.#apply)
      return
    }
    const origin = alone === undefined ? undefined : originOf(alone)
    if (alone !== undefined && origin !== undefined) {
      tracks.setOrigin(origin)
      this.#moves.followAxes(alone)
      return
    }
    this.#applyApart(perFamily, byte)
  }

  #applyApart(perFamily: FamilyLine['perFamily'], byte: number): void {
    const state = this.#state
    const fedBefore = state.net
    const toolBefore = state.feed.tool
    let moved = false
    const heads = state.tracks.headsOfFamilies().map(({ family, track, state: own }) => ({
      family,
      track,
      state: own.clone(),
    }))
    const length = Math.max(...perFamily.map((list) => list.length))
    for (let k = 0; k < length; k++) {
      const command = perFamily[0]?.[k]
      if (command !== undefined && isMove(command)) {
        moved = true
        this.#moves.take(heads, byte, (head) => perFamily[head]?.[k], this.#apply)
        continue
      }
      if (command !== undefined) this.#moves.followAxes(command)
      heads.forEach((head, at) => {
        const own = perFamily[at]?.[k]
        if (own !== undefined) this.#apply(head, own)
      })
    }
    state.tracks.regroup(heads)
    if (!moved && state.feed.tool === toolBefore) {
      // Firmware retraction: the only feed without a move.
      state.clock?.feed(fromPicometres(state.net - fedBefore))
    }
    this.#looks.anew(byte)
  }

  readonly #apply = (head: Head, command: Command): void => {
    if (isMove(command)) feedMove(head, command)
    else applyCommand(head.state, head.family, command, this.#state.eUnit)
  }
}

const isOrigin = ({ letter, code }: Command): boolean => letter === 'G' && code === 92
