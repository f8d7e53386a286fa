import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import { endMacroPull, startMacroFeed, writeEndMacro, writeStartMacro } from '../macros.ts'
import { drawRectangle, inset, rectanglePath } from '../rectangle.ts'
import { drawZigzag, zigzagPath } from '../zigzag.ts'

const bead = { width: 0.6, height: 0.3 }
const floors = 4
const layers = 270
const box = { left: 30, front: 60, width: 160, depth: 100 }
const walls = [0.3, 0.9, 1.5, 2.1].map((by) => inset(box, by))
const floor = { area: inset(box, 2.6), lines: 158 }
const start = { title: 'tackle box', nozzle_C: 215, bed_C: 60, primeLine_mm: 150 }

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'absolute',
    retraction_mm: 1,
    eDecimals: 4,
    lineEnd: '\n',
  })
  writeStartMacro(code, start)
  code.bead(bead.width, bead.height).speed(3000)
  for (let layer = 1; layer <= layers; layer += 1) {
    code.lift(layer * bead.height)
    if (layer === 3) code.command('M106 S180')
    for (const wall of walls) drawRectangle(code, wall)
    if (layer <= floors) drawZigzag(code, floor.area, 'along-x', floor.lines)
  }
  writeEndMacro(code, layers * bead.height)
  return code
}

const startMacro_mm = startMacroFeed(start)
const wallsPath = walls.reduce((sum, wall) => sum + rectanglePath(wall), 0)
const floorPath = zigzagPath(floor.area, 'along-x', floor.lines)
const peak_mm =
  startMacro_mm + (layers * wallsPath + floors * floorPath) * beadFeed(bead.width, bead.height)

/** The long one: a box that takes a good part of a reel; one absolute E register throughout. */
export const tackleBox: DemoPrint = demoPrint({
  name: 'tackle-box',
  fileName: 'tackle-box.gcode',
  description: 'Tackle box: four walls round and a solid floor, absolute E that is never set back.',
  truth: {
    tools: [{ tool: 0, peak_mm, net_mm: peak_mm - endMacroPull, startMacro_mm }],
    layers,
    passes: 1,
    height_mm: layers * bead.height,
  },
  draw,
})
