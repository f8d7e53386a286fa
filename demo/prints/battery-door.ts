import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import { endMacroPull, startMacroFeed, writeEndMacro, writeStartMacro } from '../macros.ts'
import { drawRectangle, inset, rectanglePath } from '../rectangle.ts'
import { drawZigzag, zigzagPath } from '../zigzag.ts'

const bead = { width: 0.45, height: 0.2 }
const layers = 14
const door = { left: 75, front: 88, width: 70, depth: 45 }
const loops = [0.225, 0.675, 1.125].map((by) => inset(door, by))
const filling = inset(door, 1.5)
/** Strokes along x cross the depth, strokes along y the width: about one bead apart. */
const strokes = { 'along-x': 94, 'along-y': 150 }
const start = { title: 'battery door', nozzle_C: 240, bed_C: 80, primeLine_mm: 100 }

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'absolute',
    retraction_mm: 'firmware',
    eDecimals: 5,
    lineEnd: '\n',
  })
  writeStartMacro(code, start)
  code.bead(bead.width, bead.height).speed(2400)
  for (let layer = 1; layer <= layers; layer += 1) {
    code.lift(layer * bead.height)
    for (const loop of loops) drawRectangle(code, loop)
    const stroke = layer % 2 === 1 ? 'along-x' : 'along-y'
    drawZigzag(code, filling, stroke, strokes[stroke])
  }
  writeEndMacro(code, layers * bead.height)
  return code
}

const startMacro_mm = startMacroFeed(start)
const loopsPath = loops.reduce((sum, loop) => sum + rectanglePath(loop), 0)
const fillingPath =
  zigzagPath(filling, 'along-x', strokes['along-x']) +
  zigzagPath(filling, 'along-y', strokes['along-y'])
const peak_mm =
  startMacro_mm +
  (layers * loopsPath + (layers / 2) * fillingPath) * beadFeed(bead.width, bead.height)

/** Retracts with G10 and G11 only, whose length is the firmware's and nets out. */
export const batteryDoor: DemoPrint = demoPrint({
  name: 'battery-door',
  fileName: 'battery-door.gcode',
  description: 'Battery door of a hand lamp: loops and zigzag, absolute E, firmware retraction.',
  truth: {
    tools: [{ tool: 0, peak_mm, net_mm: peak_mm - endMacroPull, startMacro_mm }],
    layers,
    passes: 1,
    height_mm: layers * bead.height,
  },
  draw,
})
