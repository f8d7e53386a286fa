import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { defaultPriors, type Prior } from '../../src/estimate/index.ts'

const { unknownTare, carrierKinds, ...single } = defaultPriors
const all: readonly (readonly [string, Prior])[] = [
  ...unknownTare.map(({ label_g, tare }) => [`\`unknownTare\` ${label_g} g`, tare] as const),
  ...Object.entries(carrierKinds).map(
    ([kind, tare]) => [`\`carrierKinds.${kind}\``, tare] as const,
  ),
  ...Object.entries(single).map(([name, prior]) => [`\`${name}\``, prior] as const),
]
const page = readFileSync(new URL('../../docs/method/estimate.md', import.meta.url), 'utf8')
const rows = new Map(
  page
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .map((line) => line.split('|').map((cell) => cell.trim()))
    .map(([, name, value, u, unit]) => [name!, [value, u, unit]] as const),
)

describe('priors', () => {
  it.each(all)('%s stands in the method page with its figures', (name, { value, u, unit }) => {
    expect(rows.get(name)).toEqual([
      String(Number(value.toPrecision(6))),
      String(Number(u.toPrecision(5))),
      unit,
    ])
  })

  it.each(all)('%s has a spread and says where it comes from', (name, { u, source }) => {
    // A nominal diameter is a name, not a measurement; its spread is `diameterOffset`.
    if (name !== '`nominalDiameter`') expect(u).toBeGreaterThan(0)
    expect(source.standing).not.toBe('read')
    expect(source.where.length).toBeGreaterThan(10)
  })

  it('are those of ascending reel sizes', () => {
    const sizes = unknownTare.map(({ label_g }) => label_g)
    expect(sizes).toEqual(sizes.toSorted((a, b) => a - b))
  })
})
