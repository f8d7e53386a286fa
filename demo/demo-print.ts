import type { MachineCode } from './machine-code.ts'

/** What one tool of a demo print takes, from the closed form, mm of filament. */
export interface ToolTruth {
  readonly tool: number
  /** What the reel must supply. */
  readonly peak_mm: number
  /** What has gone past the feeder when the file ends, retracted. */
  readonly net_mm: number
  /** The part of the peak that is drawn before the first layer. */
  readonly startMacro_mm: number
}

/** What is known of a demo print without reading its file. */
export interface PrintTruth {
  /** Ascending tool number. */
  readonly tools: readonly ToolTruth[]
  /** Layers drawn in all, over every pass. */
  readonly layers: number
  /** How often the print starts again at the bed. */
  readonly passes: number
  /** Start macro of all tools together, mm of filament. */
  readonly startMacro_mm: number
  /** Top of the print, mm. */
  readonly height_mm: number
}

/** A print drawn by the generator, with its truth in closed form. */
export interface DemoPrint {
  readonly name: string
  readonly fileName: string
  readonly description: string
  readonly truth: PrintTruth
  /** The machine code with the accounts its writer kept; the same at every call. */
  readonly draw: () => MachineCode
  /** The file's text. */
  readonly write: () => string
}

/** Makes a demo print of its parts. `draw` must give the same code at every call. */
export const demoPrint = (
  print: Omit<DemoPrint, 'write' | 'truth'> & { truth: Omit<PrintTruth, 'startMacro_mm'> },
): DemoPrint => ({
  ...print,
  truth: {
    ...print.truth,
    startMacro_mm: print.truth.tools.reduce((sum, tool) => sum + tool.startMacro_mm, 0),
  },
  write: () => print.draw().text(),
})
