/** A bar and where it lies, g from the left end of its trough. */
export interface LaidBar {
  readonly key: string
  readonly mark: string
  readonly from_g: number
  readonly to_g: number
}

/** Lays bars end to end from the left, in the order given. @param bars - masses ≥ 0 */
export function layBars(
  bars: readonly {
    readonly key: string
    readonly mark: string
    readonly needed_g: { readonly value: number }
  }[],
): readonly LaidBar[] {
  let end = 0
  return bars.map(({ key, mark, needed_g }) => {
    const from_g = end
    end += needed_g.value
    return { key, mark, from_g, to_g: end }
  })
}
