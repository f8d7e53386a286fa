import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { planDrawing, svgOf } from '../../src/picture/index.ts'
import { inks, paperAndInk } from '../../src/picture/look.ts'
import { committed, drawn } from './drawn.ts'

/**
 * Pictures are kept as files. To take a wanted change over: `PICTURES=write npx vitest run
 * test/picture/svg.test.ts`, then look at each with your own eyes.
 */
describe.each(drawn)('%s', (name, make) => {
  const svg = svgOf(make())
  if (process.env['PICTURES'] === 'write') {
    writeFileSync(new URL(`${name}.svg`, import.meta.url), svg)
  }

  test('is as committed', () => {
    expect(svg).toBe(committed(name))
  })

  test('says in words what it shows, and names no ink that is not', () => {
    expect(svg).toMatch(/<title id="said">[^<]+<\/title>/)
    const used = [...svg.matchAll(/<path class="(\w+)"/g)].map(([, ink]) => ink)
    expect(used.length).toBeGreaterThan(5)
    expect(used.filter((ink) => !Object.keys(inks).includes(ink ?? ''))).toEqual([])
  })
})

test('words can not end the file early', () => {
  expect(svgOf(drawn[0]![1]())).toContain('short &lt; 5 &amp; more')
})

test('paper and ink are those of the app by day', () => {
  const tokens = readFileSync(new URL('../../src/app/look/tokens.css', import.meta.url), 'utf8')
  const day = tokens.slice(0, tokens.indexOf('data-ground'))
  const token = (name: string): string | undefined =>
    new RegExp(`--${name}: (#[0-9a-f]{6});`).exec(day)?.[1]
  expect({ ...paperAndInk }).toEqual({
    paper: token('paper'),
    ink: token('ink'),
    inkSoft: token('ink-soft'),
    accent: token('accent'),
  })
})

test('a plan without ways is a title alone', () => {
  const { shapes } = planDrawing({
    plan: { layer: 9, ways: [], thinned_mm: 0 },
    bead_mm: 0.4,
    width: 100,
    height: 100,
    title: 'nothing',
    sayLength: String,
    said: 'nothing',
  })
  expect(shapes).toHaveLength(1)
})
