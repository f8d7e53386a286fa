import { describe, expect, it, test } from 'vitest'
import {
  defaultDensity,
  dryingCautions,
  findMaterial,
  type Material,
  materials,
  type Range,
} from '../../src/filament/index.ts'

const rises = ([low, high]: Range): boolean => low <= high
const isFilled = ({ id }: Material): boolean => id.includes('-')

describe.each(materials.map((material) => [material.id, material] as const))(
  '%s',
  (id, material) => {
    it('has an id that will do as a key, and is found by it', () => {
      expect(id).toMatch(/^[a-z0-9]+(-[a-z]+)?$/)
      expect(findMaterial(id)).toEqual({ ok: true, value: material })
    })
    it('is found by its name and every alias', () => {
      for (const name of [material.name, ...material.aliases]) {
        expect(findMaterial(name)).toEqual({ ok: true, value: material })
      }
    })
    it('has a density with an honest spread, or none if filled', () => {
      const density = defaultDensity(material)
      expect(density.ok).toBe(!isFilled(material))
      if (!density.ok) {
        expect(density.refusal).toMatchObject({ code: 'density_not_known' })
        expect(density.refusal.message).toMatch(/weigh/)
        return
      }
      expect(density.value.value).toBeGreaterThan(0.85)
      expect(density.value.value).toBeLessThan(1.5)
      expect(density.value.u / density.value.value).toBeGreaterThan(0.01)
      expect(density.value.u / density.value.value).toBeLessThan(0.04)
    })
    it('says where every figure comes from', () => {
      const sources = [
        material.densitySource,
        ...material.waterUptake.map((uptake) => uptake.source),
        ...(material.drying ? [material.drying.source] : []),
      ]
      for (const { where } of sources) expect(where.length).toBeGreaterThan(8)
    })
    it('has ranges that rise, within what is physical', () => {
      for (const { share } of material.waterUptake) {
        expect(rises(share)).toBe(true)
        expect(share[1]).toBeLessThan(0.2)
      }
      if (material.drying) {
        expect(rises(material.drying.celsius)).toBe(true)
        expect(rises(material.drying.hours)).toBe(true)
      }
    })
    it('carries a caution', () => expect(material.caution).toMatch(/\.$/))
  },
)

test('no name means two materials', () => {
  const names = materials.flatMap(({ id, aliases }) => aliases.concat(id))
  expect(new Set(names).size).toBe(names.length)
})

test.each([
  ['PLA', 'pla'],
  [' pla+ ', 'pla'],
  ['PLA CF', 'pla-cf'],
  ['PLA-CF', 'pla-cf'],
  ['pla_cf', 'pla-cf'],
  ['Nylon 6', 'pa6'],
  ['PA 12', 'pa12'],
  ['Wood', 'pla-wood'],
])('%j is %s', (text, id) => {
  expect(findMaterial(text)).toMatchObject({ ok: true, value: { id } })
})

test('an unknown name is refused with those that begin alike', () => {
  expect(findMaterial('nylon')).toMatchObject({
    ok: false,
    refusal: { code: 'material_unknown', expected: 'pa6, pa66, pa12, pa-cf, pa-gf' },
  })
  expect(findMaterial('')).toMatchObject({ ok: false, refusal: { code: 'material_unknown' } })
  expect(findMaterial('cheese')).toMatchObject({ ok: false, refusal: { received: 'cheese' } })
})

test('a drying range that softens wound filament is marked as one of pellets', () => {
  const pla = materials.find(({ id }) => id === 'pla')
  expect(pla?.drying?.celsius[1]).toBeGreaterThan(60)
  expect(pla?.drying?.source.where).toContain('loose pellets for moulding, not wound filament')
})

test('drying warns of heat, fumes, carriers, lone ovens and the maker’s sheet', () => {
  const text = dryingCautions.join(' ')
  for (const word of [
    /burn/,
    /fumes/,
    /carrier/,
    /unattended/,
    /maker/,
    /local rules/,
    /licensed/,
  ]) {
    expect(text).toMatch(word)
  }
})
