import type { SeededRandom } from '../../demo/seeded-random.ts'
import type { MatchCopy, MatchReel, MatchSlate } from '../../src/match/index.ts'
import { measured } from '../../src/units/index.ts'
import { exactPrinter, layered, toldBelief } from './told-slate.ts'

const printers = ['a', 'b']

/** A small slate that no one would choose, with something of everything in it. */
export const randomSlate = (random: SeededRandom): MatchSlate => {
  const within = (low: number, high: number): number => random.between(low, high)
  const whole = (low: number, high: number): number => Math.floor(within(low, high + 1))
  const chance = (share: number): boolean => within(0, 1) < share
  const pick = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!
  const isDoubtful = chance(0.7)
  const ids = ['r', 's', 't', 'v'].slice(0, whole(2, 4))
  const twins = chance(0.3) ? within(80, 250) : null
  const reels = ids.map((id, i): MatchReel => {
    const sealed = (twins !== null && i < 2) || chance(0.25)
    const net = twins !== null && i < 2 ? twins : within(15, 260)
    const u = isDoubtful ? (twins !== null && i < 2 ? 5 : within(0, 0.06) * net) : 0
    return {
      id,
      sealed,
      belief: toldBelief(measured(net, u), printers, {
        linearDensity: measured(1, isDoubtful ? 0.01 : 0),
        feed: measured(1, isDoubtful ? 0.01 : 0),
        start: measured(isDoubtful ? 300 : 0, isDoubtful ? 100 : 0),
        ownFeed: isDoubtful ? 0.005 : 0,
      }),
    }
  })
  const hasDue = chance(0.4)
  const copies = Array.from({ length: whole(2, 4) }, (_, i): MatchCopy => {
    const some = ids.filter(() => chance(0.75))
    const fits = some.length > 0 ? some : ids
    const mayChange = chance(0.35)
    const draw = layered(within(10, 150), 6)
    const alternatives = chance(0.15)
      ? [draw, { ...layered(draw.peak_mm / 1100, 6), weight: 0.5 }]
      : [draw]
    const tasks = [{ tool: 0, draw: alternatives, fits }]
    if (chance(0.2)) tasks.push({ tool: 1, draw: [layered(within(5, 40), 6)], fits: ids })
    return {
      id: `copy ${i}`,
      tasks,
      printers: chance(0.5) ? printers : [pick(printers)],
      importance: chance(0.3) ? 1 : 0,
      ...(mayChange && {
        changes: { most: chance(0.2) ? 2 : 1, afterLayers: chance(0.5) ? [2, 4] : [3] },
      }),
      ...(hasDue && { duration_h: whole(1, 5) }),
      ...(hasDue && chance(0.7) && { due_h: whole(2, 9) }),
    }
  })
  // Copies of one print.
  if (chance(0.3) && copies.length < 4) copies.push({ ...copies[0]!, id: 'again' })
  return {
    copies,
    reels,
    printers: printers.map((id) =>
      exactPrinter(id, {
        change_mm: measured(2000, isDoubtful ? 300 : 0),
        ...(chance(0.4) && { loaded: { 0: pick(ids) } }),
        ...(chance(0.2) && { free_h: 1 }),
      }),
    ),
    confidence: 0.95,
    useful_g: 40,
    ...(chance(0.3) && {
      earlier: copies
        .filter(() => chance(0.8))
        .map(({ id }) => ({ copy: id, tool: 0, reel: pick(ids), printer: pick(printers) })),
    }),
  }
}

/**
 * A small slate with due times and few reels for its printers, so that copies wait for them: what is late hangs
 * on which reel is when on which printer.
 */
export const waitingSlate = (random: SeededRandom): MatchSlate => {
  const whole = (low: number, high: number): number => Math.floor(random.between(low, high + 1))
  const chance = (share: number): boolean => random.uniform() < share
  const pick = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!
  const where = chance(0.3) ? [...printers, 'c'] : printers
  const ids = ['r', 's', 't'].slice(0, chance(0.3) ? 1 : chance(0.25) ? 3 : 2)
  const isTwin = chance(0.2)
  const reels = ids.map((id): MatchReel => {
    const net = isTwin ? 400 : random.between(80, 700)
    return { id, sealed: isTwin || chance(0.2), belief: toldBelief(measured(net), where) }
  })
  const copies = Array.from({ length: whole(3, chance(0.2) ? 5 : 4) }, (_, i): MatchCopy => {
    const some = ids.filter(() => chance(0.7))
    const fits = some.length > 0 ? some : ids
    const draw = layered(random.between(10, 110), 4)
    const tasks = [{ tool: 0, draw: [draw], fits }]
    if (chance(0.2) && ids.length > 1) {
      tasks.push({ tool: 1, draw: [layered(random.between(5, 40), 4)], fits: ids })
    }
    return {
      id: `copy ${i}`,
      tasks,
      printers: chance(0.3) ? where : [pick(where)],
      ...(chance(0.1) && { importance: 1 }),
      ...(chance(0.15) && { changes: { afterLayers: [2] } }),
      ...(chance(0.95) && { duration_h: whole(1, 5) }),
      ...(chance(0.85) && { due_h: whole(3, 10) }),
    }
  })
  return {
    copies,
    reels,
    printers: where.map((id) =>
      exactPrinter(id, {
        ...(chance(0.4) && { loaded: { 0: pick(ids) } }),
        ...(chance(0.25) && { free_h: whole(1, 3) }),
      }),
    ),
    useful_g: 40,
  }
}

/**
 * One print or two of many layers, and reels that hold about as much as they take together, so that what can be
 * served hangs on the layer end of a change.
 */
export const layeredSlate = (random: SeededRandom): MatchSlate => {
  const whole = (low: number, high: number): number => Math.floor(random.between(low, high + 1))
  const chance = (share: number): boolean => random.uniform() < share
  const ids = ['r', 's', 't'].slice(0, whole(2, 3))
  const isOne = chance(0.6)
  const most = isOne && chance(0.2) ? 2 : 1
  const layers = most === 2 ? whole(14, 40) : isOne ? whole(40, 200) : whole(20, 40)
  const copies = Array.from({ length: isOne ? 1 : 2 }, (_, i): MatchCopy => {
    const peak_mm = 1000 * random.between(60, 200)
    // Some layers take nothing of this tool.
    const steps = Array.from({ length: layers }, () => (chance(0.1) ? 0 : random.between(0.2, 2)))
    const total = steps.reduce((sum, step) => sum + step, 0)
    let sum = 0
    const layerEnd_mm = Float64Array.from(steps, (step) => ((sum += step) / total) * peak_mm)
    const some = ids.filter(() => chance(0.8))
    return {
      id: `copy ${i}`,
      tasks: [
        {
          tool: 0,
          draw: [{ weight: 1, peak_mm, layerEnd_mm }],
          fits: some.length > 0 ? some : ids,
        },
      ],
      printers: chance(0.3) ? printers : [printers[i]!],
      importance: chance(0.2) ? 1 : 0,
      ...((i === 0 || chance(0.6)) && { changes: { most } }),
      ...(chance(0.4) && { duration_h: whole(1, 4), due_h: whole(2, 6) }),
    }
  })
  const isDoubtful = chance(0.5)
  const asked = copies.reduce((sum, { tasks }) => sum + tasks[0]!.draw[0]!.peak_mm / 1000, 0)
  const held = asked * random.between(0.97, 1.12)
  const shares = ids.map(() => random.between(0.3, 1))
  const all = shares.reduce((sum, share) => sum + share, 0)
  const reels = ids.map((id, i): MatchReel => {
    const net = measured((held * shares[i]!) / all, isDoubtful ? random.between(0, 2) : 0)
    const more = isDoubtful ? { feed: measured(1, 0.005), start: measured(200, 50) } : {}
    return { id, sealed: chance(0.2), belief: toldBelief(net, printers, more) }
  })
  const change_mm = measured(chance(0.5) ? 0 : 500)
  return {
    copies,
    reels,
    printers: printers.map((id) => exactPrinter(id, { change_mm })),
    useful_g: 40,
  }
}
