import { beadFeed } from '../bead-feed.ts'
import { type DemoPrint, demoPrint } from '../demo-print.ts'
import { MachineCode } from '../machine-code.ts'
import { endMacroPull, startMacroFeed, writeEndMacro, writeStartMacro } from '../macros.ts'
import { chordRingsPath, drawChordRings, onCircle } from '../rings.ts'

const bead = { width: 0.7, height: 0.3 }
const floors = 2
const turns = 500
const sides = 60
const radius = 55
const floorRings = { inner: 1, step: 0.7, count: 78 }
const centre = { x: 110, y: 110 }
const start = { title: 'vase for the ferry mess', nozzle_C: 215, bed_C: 60, primeLine_mm: 120 }

const draw = (): MachineCode => {
  const code = new MachineCode({
    eMode: 'relative',
    retraction_mm: 0.8,
    eDecimals: 5,
    lineEnd: '\n',
  })
  writeStartMacro(code, start)
  code.bead(bead.width, bead.height).speed(1800)
  for (let floor = 1; floor <= floors; floor += 1) {
    code.lift(floor * bead.height)
    drawChordRings(code, centre, floorRings, sides)
  }
  code.hop(onCircle(centre, radius, 0)).command('M106 S255')
  for (let chord = 1; chord <= turns * sides; chord += 1) {
    const turned = chord / sides
    code.draw(onCircle(centre, radius, turned), (floors + turned) * bead.height)
  }
  writeEndMacro(code, (floors + turns) * bead.height)
  return code
}

const startMacro_mm = startMacroFeed(start)
/** One chord of the spiral: 2 r sin(π / sides) along, a share of the layer height up. */
const spiralChord = Math.hypot(2 * radius * Math.sin(Math.PI / sides), bead.height / sides)
const path = floors * chordRingsPath(floorRings, sides) + turns * sides * spiralChord
const peak_mm = startMacro_mm + path * beadFeed(bead.width, bead.height)

/** A floor of two layers, then one spiral that climbs with every move; a turn is a layer. */
export const vase: DemoPrint = demoPrint({
  name: 'vase',
  fileName: 'vase.gcode',
  description: 'Vase: one continuous spiral of chords on a floor of two layers, relative E.',
  truth: {
    tools: [{ tool: 0, peak_mm, net_mm: peak_mm - endMacroPull, startMacro_mm }],
    layers: floors + turns,
    passes: 1,
    height_mm: (floors + turns) * bead.height,
  },
  draw,
})
