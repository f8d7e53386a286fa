import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import { endMacroPull, startMacroFeed, writeEndMacro, writeStartMacro } from '../macros.ts'
import { arcRingsPath, drawArcRings } from '../rings.ts'

const bead = { width: 0.45, height: 0.2 }
const layers = 60
const rings = { inner: 3.3, step: 0.45, count: 33 }
const centre = { x: 110, y: 110 }
const start = { title: 'bilge pump knob', nozzle_C: 210, bed_C: 60, primeLine_mm: 120 }

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'absolute',
    retraction_mm: 0.8,
    eDecimals: 5,
    lineEnd: '\n',
  })
  writeStartMacro(code, start)
  // A text that a careless reader takes for 500 mm of feed.
  code.command('M117 Knob size E500').bead(bead.width, bead.height).speed(1800)
  for (let layer = 1; layer <= layers; layer += 1) {
    code.lift(layer * bead.height)
    if (layer === 2) code.command('M106 S255')
    drawArcRings(code, centre, rings)
  }
  writeEndMacro(code, layers * bead.height)
  return code
}

const startMacro_mm = startMacroFeed(start)
const peak_mm = startMacro_mm + layers * arcRingsPath(rings) * beadFeed(bead.width, bead.height)

/** All arcs, absolute E, and a retraction before every ring. */
export const knob: DemoPrint = demoPrint({
  name: 'knob',
  fileName: 'knob.gcode',
  description: 'Knob of a bilge pump: rings of true arcs, absolute E, retraction by E words.',
  truth: {
    tools: [{ tool: 0, peak_mm, net_mm: peak_mm - endMacroPull, startMacro_mm }],
    layers,
    passes: 1,
    height_mm: layers * bead.height,
  },
  draw,
})
