import { type ShelfEstimate, withApart } from './shelf-estimate.ts'
import { localShared } from './shelf-joint.ts'

/**
 * The estimate with the reels apart whose facts contradict each other or the rest of the shelf too
 * much for chance. Something recorded of such a reel is wrong; were it heeded, the error would be
 * spread over everything that its make, printers and scales share, and the other reels be told wrong
 * and sure. The worst is set apart first, for it makes others look bad.
 *
 * @param excess - by how much the squared distance of a reel's readings from all else may exceed their
 *   number, beside five of its standard deviations: 36, a single reading six standard deviations off,
 *   unless given
 * @see docs/method/shelf.md, "Reels apart"
 */
export const reelsApart = (estimate: ShelfEstimate, excess = 36): ShelfEstimate => {
  let now = estimate
  for (;;) {
    let worst = -1
    let most = 0
    for (let reel = 0; reel < now.blocks.length; reel++) {
      const { readings } = now.blocks[reel]!
      if (now.apart.has(reel) || readings === 0) continue
      const usual = readings + 2 * Math.sqrt(2 * readings)
      // What a reel has bent towards itself is the nearer to it: only a far one is held to the rest.
      if (distanceAt(now, reel, now) < usual + glance) continue
      const over = distanceFromRest(now, reel) - usual - 3 * Math.sqrt(2 * readings) - excess
      if (over > most) {
        most = over
        worst = reel
      }
    }
    if (worst < 0) return now
    now = withApart(now, new Set([...now.apart, worst]))
  }
}

/** Excess of the squared distance from what is believed with the reel in it, to be looked at. */
const glance = 4

/**
 * Squared distance of a reel's readings from what everything else says, the doubt of that included:
 * c(u₀) − s₀ᵀ·Σ·s₀, where u₀ is believed without the reel, c and s₀ are the distance and the score of
 * its readings there, and Σ is the covariance of what it shares, with the reel in it.
 */
const distanceFromRest = (estimate: ShelfEstimate, reel: number): number => {
  const { blocks, book, shared, apart } = estimate
  const rest = withApart(estimate, new Set([...apart, reel]))
  const { columns, information, score } = blocks[reel]!
  const make = book.makeOfReel[reel]!
  const { u } = localShared(rest.shared, make, columns)
  const { covariance } = localShared(shared, make, columns)
  const k = score.length
  const pull = score.map((own, i) => {
    let sum = own
    for (let j = 0; j < k; j++) sum -= information[i * k + j]! * u[j]!
    return sum
  })
  let sum = distanceAt(estimate, reel, rest)
  for (let i = 0; i < k; i++) {
    for (let j = 0; j < k; j++) sum -= pull[i]! * covariance[i * k + j]! * pull[j]!
  }
  return sum
}

/** Squared distance of a reel's readings at what an estimate believes of everything shared. */
const distanceAt = (
  { blocks, book }: ShelfEstimate,
  reel: number,
  { shared }: ShelfEstimate,
): number => {
  const { columns, information, score, distance } = blocks[reel]!
  const { u } = localShared(shared, book.makeOfReel[reel]!, columns)
  const k = score.length
  let sum = distance
  for (let i = 0; i < k; i++) {
    let along = -2 * score[i]!
    for (let j = 0; j < k; j++) along += information[i * k + j]! * u[j]!
    sum += u[i]! * along
  }
  return sum
}
