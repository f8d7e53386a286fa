/**
 * Where in a file things are looked at that need not be looked at on every line: at the first line that
 * matters in every so many bytes. How many depends on the byte alone, so that readers that begin in
 * the middle of a file look at the same lines. The same stands in core/plain-lines.ts.
 */

/** The largest power of two that is no more than a share of the bytes behind; 1 at the beginning. */
function powerUpTo(byte: number, parts: number): number {
  const share = Math.floor(byte / parts)
  return share === 0 ? 1 : 2 ** (31 - Math.clz32(share))
}

/** How far apart the draw curve is looked at about a byte, bytes. */
export const curveSpacing = (byte: number): number => powerUpTo(byte, 4096)

/** How far apart beads are sampled about a byte, bytes. */
export const beadSpacing = (byte: number): number => powerUpTo(byte, 512)

/** For how many moves a bead sampled at this spacing stands: one in some 32 bytes. */
export const movesIn = (spacing: number): number => Math.max(1, spacing / 32)

/** The next byte to look at behind one. */
export const nextLook = (byte: number, spacing: number): number =>
  (Math.floor(byte / spacing) + 1) * spacing
