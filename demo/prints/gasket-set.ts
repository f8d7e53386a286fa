import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import { endMacroPull, startMacroFeed, writeEndMacro, writeStartMacro } from '../macros.ts'
import { arcRingsPath, drawArcRings } from '../rings.ts'

const bead = { width: 0.45, height: 0.2 }
const layersEach = 8
const rings = { inner: 20, step: 0.45, count: 23 }
const centres = [
  { x: 60, y: 60 },
  { x: 150, y: 60 },
  { x: 60, y: 150 },
  { x: 150, y: 150 },
]
const start = { title: 'four gaskets', nozzle_C: 228, bed_C: 45, primeLine_mm: 100 }
const top = layersEach * bead.height

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'relative',
    retraction_mm: 2,
    eDecimals: 4,
    lineEnd: '\r\n',
  })
  writeStartMacro(code, start)
  code.bead(bead.width, bead.height).speed(1200)
  for (const centre of centres) {
    // Over the gaskets that stand already.
    code.lift(top + 5).travel({ x: centre.x + rings.inner, y: centre.y })
    for (let layer = 1; layer <= layersEach; layer += 1) {
      code.lift(layer * bead.height)
      drawArcRings(code, centre, rings)
    }
  }
  writeEndMacro(code, top)
  return code
}

const startMacro_mm = startMacroFeed(start)
const peak_mm =
  startMacro_mm +
  centres.length * layersEach * arcRingsPath(rings) * beadFeed(bead.width, bead.height)

/** Four gaskets, each finished before the next begins; lines end in CRLF, E has four decimals. */
export const gasketSet: DemoPrint = demoPrint({
  name: 'gasket-set',
  fileName: 'gasket-set.gcode',
  description: 'Four gaskets one after another: arcs, relative E, CRLF.',
  truth: {
    tools: [{ tool: 0, peak_mm, net_mm: peak_mm - endMacroPull, startMacro_mm }],
    layers: centres.length * layersEach,
    passes: centres.length,
    height_mm: top,
  },
  draw,
})
