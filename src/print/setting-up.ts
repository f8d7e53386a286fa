import type { Command } from './lex-line.ts'

/** So many extruding moves may be made before homing or heating is no longer setting up. */
const setUpMoves = 64
/** So many between that and the last change of E's mode or origin. */
const primeMoves = 16

const heatCodes: ReadonlySet<number> = new Set([109, 116, 190, 191])

/** Waiting for heat. */
export const isHeating = ({ letter, code }: Command): boolean =>
  letter === 'M' && heatCodes.has(code)

/** Homing and probing, sub-codes of G29 included. */
export const isHoming = ({ letter, code }: Command): boolean =>
  letter === 'G' && (code === 28 || Math.trunc(code) === 29)

/** What has been drawn when a step of setting up comes. */
export interface DrawnSoFar {
  readonly extruding: number
  readonly arcs: number
  readonly layers: number
}

/**
 * Tells a start macro from the print: decides which steps of setting up count, so that what was drawn
 * before them is start macro.
 *
 * @see docs/method/draw.md, section 6, and docs/decisions/0003-layers-and-setting-up.md
 */
export class SettingUp {
  #extruding = 0
  #arcs = 0

  /**
   * @param hard - homing, probing, heating; else a change of E's mode or origin
   */
  counts(hard: boolean, { extruding, arcs, layers }: DrawnSoFar): boolean {
    if (!hard) {
      return extruding - this.#extruding <= primeMoves && arcs === this.#arcs && layers <= 1
    }
    if (extruding > setUpMoves) return false
    this.#extruding = extruding
    this.#arcs = arcs
    return true
  }
}
