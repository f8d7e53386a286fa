/** Where a path's 0 lies, px, and how many px one of its units is. */
export interface Placing {
  readonly x: number
  readonly y: number
  readonly scale: number
}

/** To a hundredth of a pixel. */
const fine = (px: number): number => Math.round(px * 100) / 100

/** A path of M, H, V and Z in px. */
export const placedPath = (path: string, { x, y, scale }: Placing): string =>
  path.replaceAll(
    /([MHV])(-?[\d.e+-]+)(?: (-?[\d.e+-]+))?/g,
    (_, letter: string, first: string, second: string | undefined) => {
      const across = letter !== 'V'
      const place = fine((across ? x : y) + Number(first) * scale)
      return second === undefined
        ? `${letter}${place}`
        : `${letter}${place} ${fine(y + Number(second) * scale)}`
    },
  )
