import { makeUnknowns } from './shelf-book.ts'
import { type ShelfEstimate, withApart } from './shelf-estimate.ts'

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
      if (now.apart.has(reel)) continue
      const { readings } = now.blocks[reel]!
      const over = distanceOf(now, reel) - readings - 5 * Math.sqrt(2 * readings) - excess
      if (over > most) {
        most = over
        worst = reel
      }
    }
    if (worst < 0) return now
    now = withApart(now, new Set([...now.apart, worst]))
  }
}

/** Squared distance of a reel's readings at what is believed of everything shared. */
const distanceOf = ({ blocks, book, shared }: ShelfEstimate, reel: number): number => {
  const { columns, information, score, distance } = blocks[reel]!
  const own = makeUnknowns.count
  const k = score.length
  const make = shared.makeMean[book.makeOfReel[reel]!]!
  const u = Float64Array.from(score, (_, i) =>
    i < own ? make[i]! : shared.coreMean[columns[i - own]!]!,
  )
  let sum = distance
  for (let i = 0; i < k; i++) {
    let along = -2 * score[i]!
    for (let j = 0; j < k; j++) along += information[i * k + j]! * u[j]!
    sum += u[i]! * along
  }
  return sum
}
