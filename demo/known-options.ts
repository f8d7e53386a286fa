import type { BenchReel, KnownOfReel } from './reel.ts'

/** Carriers that were weighed themselves; the others were weighed in one of the same make. */
const weighedThemselves: ReadonlySet<string> = new Set(['black', 'slate', 'driftwood'])

/** What the bench knows of a reel, as names and values of the command line's options. */
export const knownOptions = ({
  name,
  material,
  known,
}: BenchReel): readonly (readonly [option: string, value: string])[] => [
  ['gross', `${known.gross_g}g`],
  ...tareOptions(name, known),
  ...(known.grossNew_g === undefined ? [] : [['gross-new', `${known.grossNew_g}g`] as const]),
  ...(known.labelNet_g === undefined ? [] : [['label', `${known.labelNet_g}g`] as const]),
  // A filled grade is in no table: its cut length tells all there is to know.
  ...(material.includes('filled') ? [] : [['material', material] as const]),
  ...(known.density_gPerCm3 === undefined
    ? []
    : [['density', `${known.density_gPerCm3}`] as const]),
  ...(known.diameterPairs_mm === undefined
    ? []
    : [['calipers', known.diameterPairs_mm.map((pair) => pair.join('x')).join(', ')] as const]),
  ...(known.cut === undefined
    ? []
    : [['cut', `${known.cut.length_mm / 1000}m=${known.cut.mass_g}g`] as const]),
]

const tareOptions = (
  name: string,
  { tare }: KnownOfReel,
): readonly (readonly [string, string])[] => {
  switch (tare.by) {
    case 'weighed':
      return [[weighedThemselves.has(name) ? 'tare' : 'tare-of-make', `${tare.tare_g}g`]]
    case 'kind':
      return [['carrier', tare.kind]]
    case 'nothing':
      return []
    default:
      return tare satisfies never
  }
}

/** Arguments of `reelreckon check` for the reels of a print, one for each of its tools. */
export const checkArguments = (
  tools: readonly number[],
  reels: readonly BenchReel[],
): readonly string[] => {
  const [reel, ...others] = reels
  if (reel !== undefined && others.length === 0) {
    return knownOptions(reel).flatMap(([name, value]) => [`--${name}`, value])
  }
  return reels.flatMap((each, place) => [
    '--tool',
    `T${tools[place]}: ${knownOptions(each)
      .map(([name, value]) => `${name}=${value}`)
      .join(', ')}`,
  ])
}
