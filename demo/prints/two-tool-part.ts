import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import {
  endMacroPull,
  startMacroFeed,
  writeEndMacro,
  writePrime,
  writeStartMacro,
} from '../macros.ts'
import { drawRectangle, inset, rectanglePath } from '../rectangle.ts'
import { drawZigzag, zigzagPath } from '../zigzag.ts'

const bead = { width: 0.45, height: 0.2 }
/** Even, so that both kinds of layer occur equally often. */
const layers = 50
const park_mm = 8
const body = { left: 80, front: 80, width: 40, depth: 40 }
const loops = [0.225, 0.675].map((by) => inset(body, by))
const filling = { area: inset(body, 1.2), lines: 40 }
const inlay = { area: { left: 128, front: 88, width: 24, depth: 24 }, lines: 54 }
const wipe = { area: { left: 160, front: 90, width: 20, depth: 12 }, lines: 12 }
const start = { title: 'channel marker, two tools', nozzle_C: 225, bed_C: 65, primeLine_mm: 120 }

const drawBody = (code: MachineCode): void => {
  for (const loop of loops) drawRectangle(code, loop)
  drawZigzag(code, filling.area, 'along-x', filling.lines)
}

const drawInlay = (code: MachineCode): void => drawZigzag(code, inlay.area, 'along-y', inlay.lines)

/** Parks the tool in use and fetches the other. */
const change = (code: MachineCode, tool: number): void => {
  code.feed(-park_mm).tool(tool).feed(park_mm)
}

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'relative',
    retraction_mm: 0.6,
    eDecimals: 5,
    lineEnd: '\n',
  })
  writeStartMacro(code, start)
  // Tool 1 was left parked by the last job: its first feed has no retraction before it.
  change(code, 1)
  writePrime(code, start.primeLine_mm, 7)
  change(code, 0)
  code.bead(bead.width, bead.height).speed(2400)
  for (let layer = 1; layer <= layers; layer += 1) {
    const [first, second] = layer % 2 === 1 ? [drawBody, drawInlay] : [drawInlay, drawBody]
    code.lift(layer * bead.height)
    first(code)
    change(code, layer % 2)
    drawZigzag(code, wipe.area, 'along-x', wipe.lines)
    second(code)
  }
  writeEndMacro(code, layers * bead.height)
  return code
}

const feedPerMm = beadFeed(bead.width, bead.height)
const bodyPath =
  loops.reduce((sum, loop) => sum + rectanglePath(loop), 0) +
  zigzagPath(filling.area, 'along-x', filling.lines)
const inlayPath = zigzagPath(inlay.area, 'along-y', inlay.lines)
/** Every layer changes tool once, so each tool wipes in every other layer. */
const wipePath = zigzagPath(wipe.area, 'along-x', wipe.lines) / 2
const bodyStart_mm = startMacroFeed(start)
const inlayStart_mm = park_mm + startMacroFeed(start)
const bodyPeak_mm = bodyStart_mm + layers * (bodyPath + wipePath) * feedPerMm
const inlayPeak_mm = inlayStart_mm + layers * (inlayPath + wipePath) * feedPerMm

/** Two tools that are parked retracted and wiped at every change; relative E. */
export const twoToolPart: DemoPrint = demoPrint({
  name: 'two-tool-part',
  fileName: 'two-tool-part.gcode',
  description: 'Channel marker in two colours: T0 and T1, parked by 8 mm and wiped at each change.',
  truth: {
    tools: [
      {
        tool: 0,
        peak_mm: bodyPeak_mm,
        net_mm: bodyPeak_mm - endMacroPull,
        startMacro_mm: bodyStart_mm,
      },
      {
        tool: 1,
        peak_mm: inlayPeak_mm,
        net_mm: inlayPeak_mm - park_mm,
        startMacro_mm: inlayStart_mm,
      },
    ],
    layers,
    passes: 1,
    height_mm: layers * bead.height,
  },
  draw,
})
