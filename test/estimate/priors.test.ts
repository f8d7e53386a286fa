import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import {
  defaultPriors,
  defaultShelfPriors,
  defaultShelfSlips,
  type Prior,
} from '../../src/estimate/index.ts'

const { unknownTare, carrierKinds, ...single } = defaultPriors
const ofReel: readonly (readonly [string, Prior])[] = [
  ...unknownTare.map(({ label_g, tare }) => [`\`unknownTare\` ${label_g} g`, tare] as const),
  ...Object.entries(carrierKinds).map(
    ([kind, tare]) => [`\`carrierKinds.${kind}\``, tare] as const,
  ),
  ...Object.entries(single).map(([name, prior]) => [`\`${name}\``, prior] as const),
]
const ofShelf = Object.entries(defaultShelfPriors)
  .filter(([name]) => !(name in defaultPriors))
  .map(([name, prior]) => [`\`${name}\``, prior as Prior] as const)
const slipNames = Object.keys(defaultShelfSlips) as (keyof typeof defaultShelfSlips)[]
const slips = slipNames.map((name) => {
  const code = name.replaceAll(/[A-Z]/gu, (letter) => `_${letter.toLowerCase()}`)
  return [`\`${code}\``, defaultShelfSlips[name]] as const
})

/** Cells of the rows of a method page, by the name in code that a row begins with. */
const rowsOf = (page: string): ReadonlyMap<string, readonly string[]> =>
  new Map(
    readFileSync(new URL(`../../docs/method/${page}`, import.meta.url), 'utf8')
      .split('\n')
      .filter((line) => line.startsWith('| `'))
      .map((line) => line.split('|').map((cell) => cell.trim()))
      .map(([, name, ...cells]) => [name!, cells] as const)
      // Of factors on priors there is another table, of two columns.
      .filter(([, cells]) => cells.length > 2),
  )
const reelPage = rowsOf('estimate.md')
const shelfPage = rowsOf('shelf.md')
const figures = ({ value, u, unit }: Prior): string[] => [
  String(Number(value.toPrecision(6))),
  String(Number(u.toPrecision(5))),
  unit,
]

describe('priors', () => {
  it.each(ofReel)('%s stands in the method page of a reel with its figures', (name, prior) => {
    expect(reelPage.get(name)?.slice(0, 3)).toEqual(figures(prior))
  })

  it.each(ofShelf)('%s stands in the method page of the shelf with its figures', (name, prior) => {
    expect(shelfPage.get(name)?.slice(0, 3)).toEqual(figures(prior))
  })

  it.each(slips)('%s stands in the method page of the shelf with its share', (name, slip) => {
    const [what, share] = shelfPage.get(name) ?? []
    expect(share).toBe(String(slip.share))
    if ('most' in slip) expect(what).toContain(`up to ${slip.most} g`)
  })

  it.each([...ofReel, ...ofShelf])('%s has a spread and a source', (name, { u, source }) => {
    // A name, a limit and what the model holds as exact; the spread of the diameter is its offset's.
    const exact = [
      '`nominalDiameter`',
      '`leastWater`',
      '`waterTime`',
      '`densityOverTable`',
      '`scaleOverStated`',
    ]
    if (!exact.includes(name)) expect(u).toBeGreaterThan(0)
    expect(source.standing).not.toBe('read')
    expect(source.where.length).toBeGreaterThan(10)
  })

  it.each(slips)('%s has a source', (_, { source }) => {
    expect(source.standing).toBe('common practice, no source')
    expect(source.where.length).toBeGreaterThan(10)
  })

  it('are those of ascending reel sizes', () => {
    const sizes = unknownTare.map(({ label_g }) => label_g)
    expect(sizes).toEqual(sizes.toSorted((a, b) => a - b))
  })
})
