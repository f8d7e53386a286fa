import type { CheckedPrintJson } from '../contract/index.ts'
import type { Finding, PrintOfFile, PrintReading } from '../print/index.ts'
import { toolsDrawn } from '../service/index.ts'
import { printToJson } from './print-to-json.ts'
import type { Input } from './read-input.ts'
import { type Drawn, drawnOfPrint } from './what-is-drawn.ts'

/** What is kept of a print while it is followed: enough to judge it anew, whatever it is long. */
export interface FollowedPrint {
  readonly print: CheckedPrintJson
  readonly families: PrintReading['families']
  readonly findings: readonly Finding[]
}

const none = {
  layerEnd_mm: new Float64Array(),
  curve: {
    draw_mm: new Float64Array(),
    height_mm: new Float64Array(),
    layer: new Int32Array(),
    byte: new Float64Array(),
  },
} as const

export const followedPrint = (input: Input, print: PrintOfFile): FollowedPrint => ({
  print: printToJson(drawnOfPrint(input, print))!,
  // A shelf is asked by what a print draws in all: its curves are let go.
  families: print.reading.families.map(({ families, tools }) => ({
    families,
    tools: tools.map(({ tool, peak_mm, net_mm, startMacro_mm }) => ({
      tool,
      peak_mm,
      net_mm,
      startMacro_mm,
      ...none,
    })),
  })),
  findings: print.reading.findings.filter(({ severity }) => severity !== 'note'),
})

/** The print as it is judged. @param firmware - of the printer, where it is known */
export const drawnOfFollowed = (
  { families, findings }: FollowedPrint,
  firmware: string | undefined,
): Drawn => ({
  tools: toolsDrawn({ families }, firmware),
  // Whoever knows the printer's firmware need not be asked for it.
  findings: findings.filter(({ code }) => code !== 'families_differ' || firmware === undefined),
})
