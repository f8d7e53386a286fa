import { beadFeed } from './bead-feed.ts'
import type { MachineCode } from './machine-code.ts'

/** What a print sets before it starts. */
export interface StartMacro {
  readonly title: string
  readonly nozzle_C: number
  readonly bed_C: number
  /** Length of each of the two priming lines, mm of path. */
  readonly primeLine_mm: number
}

const purge_mm = 6
const primeWidth_mm = 0.6
const primeHeight_mm = 0.3
const endPull_mm = 4

/** Filament the start macro feeds in all, mm: a purge in the air and two priming lines. */
export const startMacroFeed = ({ primeLine_mm }: StartMacro): number =>
  purge_mm + 2 * primeLine_mm * beadFeed(primeWidth_mm, primeHeight_mm)

/** Filament the end macro pulls back, mm: what separates net from peak. */
export const endMacroPull: number = endPull_mm

/** Everything up to the first layer. Ends with E at 0. */
export const writeStartMacro = (code: MachineCode, macro: StartMacro): void => {
  code
    .command('; drawn by the Reelreckon demo generator')
    .command(`; ${macro.title}`)
    .modes()
    .command(`M140 S${macro.bed_C}`)
    .command(`M104 S${macro.nozzle_C}`)
    .command('G28')
    .command(`M190 S${macro.bed_C}`)
    .command(`M109 S${macro.nozzle_C}`)
    .command('M107')
    .zeroE()
  writePrime(code, macro.primeLine_mm, 4)
}

/** A purge and two priming lines at the left edge. Ends with E at 0. */
export const writePrime = (code: MachineCode, primeLine_mm: number, x: number): void => {
  code
    .lift(primeHeight_mm)
    .bead(primeWidth_mm, primeHeight_mm)
    .speed(1200)
    .travel({ x, y: 20 })
    .feed(purge_mm)
    .draw({ x, y: 20 + primeLine_mm })
    .travel({ x: x + 0.6, y: 20 + primeLine_mm })
    .draw({ x: x + 0.6, y: 20 })
    .zeroE()
}

/** Pulls the filament back, lifts, and switches everything off. */
export const writeEndMacro = (code: MachineCode, top_mm: number): void => {
  code
    .feed(-endPull_mm)
    .lift(top_mm + 10)
    .travel({ x: 10, y: 190 })
    .command('M107')
    .command('M104 S0')
    .command('M140 S0')
    .command('M84')
}
