import type { ReelDrawn } from '../drawing/carrier-size.ts'
import { type MassUnit, showHeight, showReading } from './show-figure.ts'

const then = (when: string | null | undefined): string => (when == null ? '' : `, ${when}`)

/** What drawings say, and what is said in their place to those who do not see them. */
export const drawingWords = {
  noChance: 'no chance to be told',
  now: 'holds now',
  after: 'after the print',
  holds: 'holds',
  needs: 'needs',
  dryAt: (height: string): string => `dry at ${height}`,
  dryFrom: (height: string): string => `from ${height} on`,
  reached: (height: string): string => `ended at ${height}`,
  changeBy: (height: string): string => `change by ${height}`,
  silhouette: (
    width: string,
    height: string,
    runDry: {
      readonly early: number | null
      readonly likely: number | null
      readonly late: number | null
    } | null,
    change: number | null,
    reached: number | null = null,
    when: { readonly dry: string | null; readonly change: string | null } | null = null,
  ): string => {
    const { early = null, likely = null, late = null } = runDry ?? {}
    const said = [`The print from the side, ${width} wide and ${height} high.`]
    if (reached !== null) said.push(`It ended at ${showHeight(reached)}.`)
    if (likely !== null)
      said.push(`The reel most likely runs dry at ${showHeight(likely)}${then(when?.dry)}.`)
    if (early !== null) {
      const until = late === null ? 'or lasts to the end' : `and by ${showHeight(late)}`
      said.push(`It runs dry at ${showHeight(early)} at the earliest, ${until}.`)
    } else if (runDry !== null) said.push('The reel goes all the way up.')
    if (change !== null)
      said.push(
        `Up to ${showHeight(change)}${then(when?.change)}${when?.change == null ? '' : ','} changing reels is safe.`,
      )
    return said.join(' ')
  },
  section: (now: string, after: string | null): string =>
    `The reel cut along its axis: it holds ${now}${after === null ? '' : `, and ${after} after the print`}.`,
  /** What the sizes of a reel's carrier come from, and what they are. */
  carrier: ({ carrier, carrierFrom, mass_g }: ReelDrawn, unit: MassUnit): string => {
    const sizes = `${showHeight(Math.round(carrier.flange_mm))} across, ${showHeight(Math.round(carrier.width_mm))} wide`
    const whence = {
      measured: 'Hub and width of the carrier as measured, its flanges guessed',
      label: `Carrier guessed from its label, ${showReading(mass_g, unit)}`,
      net: 'Carrier guessed from what is on it',
      usual: `Carrier guessed as for ${showReading(mass_g, unit)}, as no label was told`,
    }
    return `To scale. ${whence[carrierFrom]}: ${sizes}.`
  },
  discs:
    'All discs to one scale. Carriers are guessed from the mass on their labels; hub and width are as measured where they were.',
  scaleBar: (needs: string, holds: string): string =>
    `On one scale: the print needs ${needs}, the reel holds ${holds}.`,
}
