/**
 * Where in a file things are looked at that need not be looked at on every line. How far apart depends on
 * the place in the file and on what was drawn since, so that readers that begin in the middle of a file
 * look at the same lines. The same stands in core/plain-lines.ts.
 *
 * A file is cut into cells, the longer the farther from its begin. In each, one bead is sampled. The draw
 * curve is looked at where the first E word in a cell stands, and from there wherever the net feed has
 * grown by another `drawSpacing`: so no two looks are farther apart than that and one move.
 */

const half = 2 ** 31
/** No spacing is larger. */
const most = 2 ** 51

/** The largest power of two that is no more than a share of a place or a draw; 1 at the beginning. */
function powerUpTo(place: number, parts: number): number {
  const share = Math.min(most, Math.floor(place / parts))
  if (share >= half) return half * powerUpTo(share / half, 1)
  return share < 1 ? 1 : half / 2 ** Math.clz32(share)
}

/** How long a cell about a byte is, bytes. */
export const cellSize = (byte: number): number => powerUpTo(byte, 512)

/** How far apart the draw curve is looked at in a cell that begins where so much is drawn, pm. */
export const drawSpacing = (draw: number): number => powerUpTo(draw, 2048)

/** For how many moves a bead stands that is sampled once in a cell: one in some 32 bytes. */
export const movesIn = (size: number): number => Math.max(1, size / 32)

/** Where the next cell begins. */
export const nextCell = (byte: number): number => {
  const size = cellSize(byte)
  return (Math.floor(byte / size) + 1) * size
}
