import type { CheckedPrintJson, PrintRowJson } from '../contract/index.ts'
import { readingOfRow } from '../ledger/index.ts'
import type { Layers, PrintTime } from '../print/index.ts'
import { accept, formatCount, type Outcome, refuse } from '../units/index.ts'
import { drawAfterLayer } from '../verdict/index.ts'
import { type ToolDrawn, toolsDrawn } from './tools-drawn.ts'

/** A print that was kept, or the length that stands in for one. */
export interface DrawAsked {
  readonly print?: PrintRowJson
  readonly length_mm?: number
  /** Firmware family; that of the printer unless given. */
  readonly firmware?: string
  /** Only what comes after this layer, 1-based: a reel takes over there. */
  readonly afterLayer?: number
}

/** What is to be printed, as the verdict takes it. */
export interface WhatIsDrawn {
  readonly tools: readonly ToolDrawn[]
  readonly layers?: Layers
  /** Where it was kept with the print. */
  readonly time?: PrintTime
  readonly print: CheckedPrintJson | null
}

/**
 * What is to be printed.
 *
 * @param usual - firmware family of the printer, where it is known
 * @returns `nothing_to_check`, `layer_needs_print`, `layer_out_of_range`
 */
export const whatIsDrawn = (
  { print, length_mm, firmware, afterLayer = 0 }: DrawAsked,
  usual: string | undefined,
): Outcome<WhatIsDrawn> => {
  if (print === undefined) {
    if (length_mm === undefined || !(length_mm > 0)) {
      return refuse({
        code: 'nothing_to_check',
        message: 'Say what is to be printed: a print that was kept, or a length above 0.',
      })
    }
    if (afterLayer > 0) {
      return refuse({
        code: 'layer_needs_print',
        message: 'A length has no layers: of what is left of it, give the length.',
      })
    }
    return accept({ tools: [{ tool: 0, draw: [{ weight: 1, peak_mm: length_mm }] }], print: null })
  }
  const { families, layers, time } = readingOfRow(print)
  if (afterLayer > layers.count) {
    return refuse({
      code: 'layer_out_of_range',
      message: `The print has ${formatCount(layers.count, 'layer')}: nothing comes after layer ${afterLayer}.`,
      expected: `1 to ${layers.count}`,
      received: `${afterLayer}`,
    })
  }
  const drawn = toolsDrawn({ families }, firmware ?? usual).map(({ tool, draw }) => ({
    tool,
    draw: drawAfterLayer(draw, afterLayer),
  }))
  const left = drawn.filter(({ draw }) => draw.some(({ peak_mm }) => peak_mm > 0))
  return accept({
    // A tool that has done its part needs no reel for the rest.
    tools: left.length === 0 ? drawn.slice(0, 1) : left,
    layers,
    ...(time && { time }),
    print: checkedPrintOf(print),
  })
}

const checkedPrintOf = ({ id, file, bytes, layers }: PrintRowJson): CheckedPrintJson => ({
  file,
  sha256: id.slice(0, 64),
  bytes,
  container: null,
  member: id.length > 64 ? id.slice(65) : null,
  lines: null,
  layers: layers.count,
  top_mm: layers.height_mm.reduce<number | null>(
    (top, height) => Math.max(top ?? height, height),
    null,
  ),
  stretch: null,
  stretches: 1,
})
