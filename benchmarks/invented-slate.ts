import type { SeededRandom } from '../demo/seeded-random.ts'
import type { WorkBelief } from '../src/estimate/index.ts'
import type { MatchCopy, MatchPrinter, MatchReel, MatchSlate } from '../src/match/index.ts'
import { type Measured, measured, millimetres } from '../src/units/index.ts'
import { toldBelief } from '../test/match/told-slate.ts'

/** How large a slate is to be. */
export interface SlateSize {
  readonly copies: number
  readonly reels: number
  /** Materials, each with its own reels and prints. */
  readonly groups: number
  readonly printers: number
}

/** What is told of a reel and its printers; the truth of a simulation is drawn from the same. */
export const doubts = {
  linearDensity: measured(2.98, 0.02),
  feed: measured(1, 0.008),
  start: measured(150, 60),
  ownFeed: 0.004,
} as const
export const tail: Measured = measured(500, 150)
const sealedOfGroup = 3
const layers = 100

const share = (total: number, parts: number, part: number): number =>
  Math.round((total * (part + 1)) / parts) - Math.round((total * part) / parts)

/**
 * A slate of a bench with part-used reels and three sealed ones of each material: many remnants, prints of
 * 6 to 420 g, about 70 in the middle, one in ten with two tools, three in ten that may be changed once.
 */
export const inventedSlate = (random: SeededRandom, size: SlateSize): MatchSlate => {
  const printers = Array.from(
    { length: size.printers },
    (_, i): MatchPrinter => ({
      id: `printer ${i}`,
      tail_mm: measured(millimetres(tail.value), tail.u),
      change_mm: measured(300, 80),
    }),
  )
  const onAll = printers.map(({ id }) => id)
  const reels: MatchReel[] = []
  const copies: MatchCopy[] = []
  for (let group = 0; group < size.groups; group++) {
    const count = share(size.reels, size.groups, group)
    const own = Array.from({ length: count }, (_, i) => reelOf(random, group, i, count, onAll))
    reels.push(...own)
    const fits = own.map(({ id }) => id)
    const where = [onAll[group % onAll.length]!, onAll[(group + 1) % onAll.length]!]
    for (let i = 0; i < share(size.copies, size.groups, group); i++) {
      const metres = massOf(random) / doubts.linearDensity.value
      const tasks = [{ tool: 0, draw: [layered(metres)], fits }]
      if (random.uniform() < 0.1) tasks.push({ tool: 1, draw: [layered(metres / 5)], fits })
      copies.push({
        id: `group ${group} print ${i}`,
        tasks,
        printers: random.uniform() < 0.5 ? [where[0]!] : [...new Set(where)],
        importance: random.uniform() < 0.2 ? 1 : 0,
        ...(random.uniform() < 0.3 && { changes: {} }),
      })
    }
  }
  return { copies, reels, printers, useful_g: 50 }
}

const massOf = (random: SeededRandom): number =>
  Math.min(420, Math.max(6, Math.exp(random.normal(Math.log(70), 0.8))))

const layered = (metres: number) => ({
  weight: 1,
  peak_mm: 1000 * metres,
  layerEnd_mm: Float64Array.from({ length: layers }, (_, i) => (1000 * metres * (i + 1)) / layers),
})

const reelOf = (
  random: SeededRandom,
  group: number,
  place: number,
  count: number,
  printers: readonly string[],
): MatchReel => {
  const sealed = place >= count - sealedOfGroup
  const net = sealed ? 1005 : 15 + 985 * random.uniform() ** 1.6
  const u = sealed ? 12 : random.between(2, 14)
  const belief: WorkBelief = toldBelief(measured(net, u), printers, doubts)
  return { id: `group ${group} reel ${place}`, sealed, belief }
}
