import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import { endMacroPull, startMacroFeed, writeEndMacro, writeStartMacro } from '../macros.ts'
import { chordRingsPath, drawChordRings } from '../rings.ts'

const bead = { width: 0.45, height: 0.3 }
const layers = 150
const sides = 16
const rings = { inner: 0.4, step: 0.45, count: 9 }
const centre = { x: 110, y: 110 }
const start = { title: 'hinge pin', nozzle_C: 240, bed_C: 80, primeLine_mm: 150 }

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'relative',
    retraction_mm: 1.2,
    eDecimals: 5,
    lineEnd: '\n',
  })
  writeStartMacro(code, start)
  code.bead(bead.width, bead.height).speed(1500)
  for (let layer = 1; layer <= layers; layer += 1) {
    code.zeroE().lift(layer * bead.height)
    drawChordRings(code, centre, rings, sides)
  }
  writeEndMacro(code, layers * bead.height)
  return code
}

const startMacro_mm = startMacroFeed(start)
const peak_mm =
  startMacro_mm + layers * chordRingsPath(rings, sides) * beadFeed(bead.width, bead.height)

/** So small that the start macro is a good part of it; relative E, G92 at every layer. */
export const hingePin: DemoPrint = demoPrint({
  name: 'hinge-pin',
  fileName: 'hinge-pin.gcode',
  description: 'Pin of a hatch hinge: small, relative E, G92 E0 at every layer.',
  truth: {
    tools: [{ tool: 0, peak_mm, net_mm: peak_mm - endMacroPull, startMacro_mm }],
    layers,
    passes: 1,
    height_mm: layers * bead.height,
  },
  draw,
})
