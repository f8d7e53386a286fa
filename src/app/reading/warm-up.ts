import { type PrintFile, PrintFileReader } from '../../print/index.ts'
import type { Outcome } from '../../units/index.ts'

const readers = 3
const layers = 10
const movesOfLayer = 2000

/** A layer of an invented print: an oval, drawn round after round. */
const layerOf = (layer: number): string => {
  const z = (0.2 * (layer + 1)).toFixed(2)
  const lines = [`G0 X90 Y60 Z${z} F9000`, 'G1 E0.8 F2400', 'G1 F1800']
  for (let at = 0; at < movesOfLayer; at++) {
    const angle = (at * Math.PI) / 120
    const [x, y] = [60 + 30 * Math.cos(angle), 60 + 20 * Math.sin(angle)]
    lines.push(`G1 X${x.toFixed(3)} Y${y.toFixed(3)} E${(0.02 + (at % 9) / 1000).toFixed(5)}`)
  }
  lines.push('G1 E-0.8 F2400', '')
  return lines.join('\n')
}

/**
 * Reads an invented print a few times, a layer with each step: what a browser has run some time it compiles
 * well, and a file that comes then is read at full speed from its beginning. A reader is compiled for the
 * first one there was, and anew for all when there is a second.
 */
export function* warmUp(): Generator<void, Outcome<PrintFile>> {
  let outcome = yield* readInvented()
  for (let more = 1; more < readers; more++) outcome = yield* readInvented()
  return outcome
}

function* readInvented(): Generator<void, Outcome<PrintFile>> {
  const reader = new PrintFileReader({ motion: {}, silhouette: true })
  const text = new TextEncoder()
  reader.push(text.encode('G21\nG90\nM83\nG28\n'))
  for (let layer = 0; layer < layers; layer++) {
    const bytes = text.encode(layerOf(layer))
    // A slice of a file ends within a line.
    const cut = Math.floor(bytes.length / 2)
    reader.push(bytes.subarray(0, cut))
    reader.push(bytes.subarray(cut))
    yield
  }
  return reader.finish()
}
