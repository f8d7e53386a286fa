/** What a reader of few lines makes of a demo print. Shares no code with the generator. */
export interface Tally {
  readonly net: ReadonlyMap<number, number>
  readonly peak: ReadonlyMap<number, number>
  readonly eWords: number
  /** Path of the extruding moves right of the priming lines, mm. */
  readonly path_mm: number
  /** Changes of height between such moves, the first included. */
  readonly layers: number
  readonly top_mm: number
}

const word = (line: string, letter: string): number | undefined => {
  const found = new RegExp(`${letter}(-?[0-9.]+)`).exec(line)
  return found === null ? undefined : Number(found[1])
}

/** Reads G0 to G3, G92 E, M82, M83 and T, and nothing else. */
export const tally = (text: string): Tally => {
  const net = new Map<number, number>()
  const peak = new Map<number, number>()
  let [tool, register, relative] = [0, 0, false]
  let [x, y, z] = [0, 0, 0]
  let [eWords, path, layers, layerZ, top] = [0, 0, 0, -1, 0]
  for (const line of text.split(/\r?\n/)) {
    if (line === 'M82' || line === 'M83') relative = line === 'M83'
    else if (line.startsWith('T')) tool = Number(line.slice(1))
    else if (line.startsWith('G92 E')) register = Number(line.slice(5))
    if (!/^G[0-3] /.test(line)) continue
    const [toX, toY, toZ] = [word(line, 'X') ?? x, word(line, 'Y') ?? y, word(line, 'Z') ?? z]
    const e = word(line, 'E')
    if (e !== undefined) {
      eWords += 1
      const feed = relative ? e : e - register
      register = e
      net.set(tool, (net.get(tool) ?? 0) + feed)
      peak.set(tool, Math.max(peak.get(tool) ?? 0, net.get(tool) ?? 0))
      if (feed > 0 && toX > 20 && (toX !== x || toY !== y)) {
        const chord = Math.hypot(toX - x, toY - y)
        const [i, j] = [word(line, 'I'), word(line, 'J')]
        const radius = Math.hypot(i ?? 0, j ?? 0)
        // Arcs of the demo prints are never more than half a turn.
        const flat = radius > 0 ? 2 * radius * Math.asin(Math.min(1, chord / 2 / radius)) : chord
        path += Math.hypot(flat, toZ - z)
        if (toZ !== layerZ) layers += 1
        layerZ = toZ
        top = Math.max(top, toZ)
      }
    }
    ;[x, y, z] = [toX, toY, toZ]
  }
  return { net, peak, eWords, path_mm: path, layers, top_mm: top }
}
