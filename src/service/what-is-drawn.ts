import type { CheckedPrintJson, MeasuredJson, PrintRowJson } from '../contract/index.ts'
import { readingOfRow } from '../ledger/index.ts'
import type { Layers, PrintTime } from '../print/index.ts'
import {
  accept,
  formatCount,
  gramsPerCubicCentimetre,
  measured,
  millimetres,
  type Outcome,
  refuse,
} from '../units/index.ts'
import { drawAfterLayer } from '../verdict/index.ts'
import { drawOfPart } from './draw-of-part.ts'
import { lengthOfStated, nominalFilament } from './nominal-filament.ts'
import { filamentDensity } from './reading-told.ts'
import { type ToolDrawn, toolsDrawn } from './tools-drawn.ts'

/** A print that was kept, or the length or mass that stands in for one. */
export interface DrawAsked {
  readonly print?: PrintRowJson
  readonly length_mm?: number
  readonly mass?: MassTold
  /** What each tool draws of a print, or of several together, where that is worked out already. */
  readonly drawn?: Pick<WhatIsDrawn, 'tools' | 'layers' | 'time'> & { readonly prints: number }
  /** Firmware family; that of the printer unless given. */
  readonly firmware?: string
  /** Only what comes after this layer, 1-based: a reel takes over there. */
  readonly afterLayer?: number
  /** Only the part between planned reel changes; 1 is up to the first. */
  readonly stretch?: number
}

/** A stated mass, and what of the filament is told with it; u = 0 takes the usual spread. */
export interface MassTold {
  readonly mass_g: number
  readonly material?: string
  readonly density_g_per_cm3?: MeasuredJson
  readonly diameter_mm?: MeasuredJson
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
 * @returns `nothing_to_check`, `too_much_to_check`, `part_needs_print`, `part_told_twice`,
 *   `layer_out_of_range`, and as `lengthOfMass`, `drawOfPart`
 */
export const whatIsDrawn = (
  { print, length_mm, mass, drawn, firmware, afterLayer, stretch }: DrawAsked,
  usual: string | undefined,
): Outcome<WhatIsDrawn> => {
  const given = [print, length_mm, mass, drawn].filter((each) => each !== undefined)
  if (given.length > 1) {
    return refuse({
      code: 'too_much_to_check',
      message: 'A print, a length and a mass stand for the same thing: give one of them.',
    })
  }
  if (afterLayer !== undefined && stretch !== undefined) {
    return refuse({
      code: 'part_told_twice',
      message:
        'What comes after a layer, and a part between planned changes, are two ways to say what is judged: give one of them.',
    })
  }
  if (print !== undefined)
    return drawnOfPrint(print, { firmware: firmware ?? usual, afterLayer, stretch })
  if (afterLayer !== undefined || stretch !== undefined) {
    return refuse({
      code: 'part_needs_print',
      message:
        'A length has no layers and no planned changes: of what is left of it, give the length.',
    })
  }
  if (drawn !== undefined) {
    const { prints: _, ...of } = drawn
    return accept({ ...of, print: null })
  }
  const length = mass ? lengthOfMass(mass) : accept(length_mm)
  if (!length.ok) return length
  if (length.value === undefined || !(length.value > 0)) {
    return refuse({
      code: 'nothing_to_check',
      message: 'Say what is to be printed: a print that was kept, or a length or mass above 0.',
    })
  }
  return accept({ tools: [{ tool: 0, draw: [{ weight: 1, peak_mm: length.value }] }], print: null })
}

const lengthOfMass = ({
  mass_g,
  material,
  density_g_per_cm3: density,
  diameter_mm: diameter,
}: MassTold): Outcome<number> => {
  const sensible = density ? filamentDensity(density.value) : accept(0)
  if (!sensible.ok) return sensible
  const filament = nominalFilament({
    ...(material !== undefined && { material }),
    ...(density && { density: measured(gramsPerCubicCentimetre(density.value), density.u) }),
    ...(diameter && { diameter: measured(millimetres(diameter.value), diameter.u) }),
  })
  if (!filament.ok) return filament
  if (filament.value !== undefined) {
    return accept(lengthOfStated({ mass_g, filament: filament.value }))
  }
  return refuse({
    code: 'density_missing',
    message:
      'A mass was computed with a density by whoever stated it: give its material or its density, and its diameter unless it is 1.75 mm.',
  })
}

const drawnOfPrint = (
  print: PrintRowJson,
  {
    firmware,
    afterLayer = 0,
    stretch,
  }: { readonly [K in 'firmware' | 'afterLayer' | 'stretch']: DrawAsked[K] | undefined },
): Outcome<WhatIsDrawn> => {
  const reading = readingOfRow(print)
  const { families, layers, time } = reading
  if (afterLayer > layers.count) {
    return refuse({
      code: 'layer_out_of_range',
      message: `The print has ${formatCount(layers.count, 'layer')}: nothing comes after layer ${afterLayer}.`,
      expected: `1 to ${layers.count}`,
      received: `${afterLayer}`,
    })
  }
  const whole = toolsDrawn({ families }, firmware)
  const part = stretch === undefined ? accept(whole) : drawOfPart(reading, whole, stretch)
  if (!part.ok) return part
  const drawn = part.value.map(({ tool, draw }) => ({
    tool,
    draw: drawAfterLayer(draw, afterLayer),
  }))
  const left = drawn.filter(({ draw }) => draw.some(({ peak_mm }) => peak_mm > 0))
  return accept({
    // A tool that has done its part needs no reel for the rest.
    tools: left.length === 0 ? drawn.slice(0, 1) : left,
    layers,
    ...(time && { time }),
    print: { ...checkedPrintOf(print), stretch: stretch ?? null },
  })
}

const checkedPrintOf = ({ id, file, bytes, layers, changes }: PrintRowJson): CheckedPrintJson => ({
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
  stretches: changes ? changes.length + 1 : null,
})
