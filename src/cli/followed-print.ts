import type { CheckedPrintJson } from '../contract/index.ts'
import type { Finding, Layers, PrintOfFile, PrintReading, PrintTime } from '../print/index.ts'
import { toolsDrawn } from '../service/index.ts'
import { printToJson } from './print-to-json.ts'
import type { Input } from './read-input.ts'
import { type Drawn, drawnOfPrint } from './what-is-drawn.ts'

/** What is kept of a print while it is followed: enough to judge it anew, whatever it is long. */
export interface FollowedPrint {
  readonly print: CheckedPrintJson
  readonly families: PrintReading['families']
  readonly findings: readonly Finding[]
  readonly time: PrintTime | null
  /** Only where it is kept with its curves. */
  readonly layers?: Layers
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

/**
 * @param inFull - with its curves: a shelf is asked by what a print draws in all, a reel that is named by
 *   where it runs dry as well
 */
export const followedPrint = (input: Input, print: PrintOfFile, inFull: boolean): FollowedPrint => {
  const { families, findings, time, layers } = print.reading
  return {
    print: printToJson(drawnOfPrint(input, print))!,
    families: inFull
      ? families
      : families.map((group) => ({
          families: group.families,
          tools: group.tools.map(({ tool, peak_mm, net_mm, startMacro_mm }) => ({
            tool,
            peak_mm,
            net_mm,
            startMacro_mm,
            ...none,
          })),
        })),
    findings: findings.filter(({ severity }) => severity !== 'note'),
    time,
    ...(inFull && { layers }),
  }
}

/** The print as it is judged. @param firmware - of the printer, where it is known */
export const drawnOfFollowed = (
  { families, findings, time, layers }: FollowedPrint,
  firmware: string | undefined,
): Drawn => ({
  tools: toolsDrawn({ families }, firmware),
  // Whoever knows the printer's firmware need not be asked for it.
  findings: findings.filter(({ code }) => code !== 'families_differ' || firmware === undefined),
  ...(time && { time }),
  ...(layers && { layers }),
})
