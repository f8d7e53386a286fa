import { expect, test } from 'vitest'
import {
  anyMaterial,
  materialOf,
  materialsOf,
  sayMaterial,
} from '../../src/app/check/use-material.ts'
import { wishedMaterial } from '../../src/app/check/wished-material.ts'
import { keep } from '../../src/app/look/kept.ts'
import type { ToolCheckJson, WaitingRowJson } from '../../src/contract/index.ts'

test('what a print is to be made of is kept of that print alone, until it is said otherwise', () => {
  expect(materialOf('one')).toBe(null)
  sayMaterial('one', 'pla')
  sayMaterial('two', anyMaterial)
  expect([materialOf('one'), materialOf('two'), materialOf('three')]).toEqual(['pla', '*', null])
  sayMaterial('one', 'petg')
  expect(materialOf('one')).toBe('petg')
  sayMaterial('one', null)
  expect([materialOf('one'), materialOf('two')]).toEqual([null, '*'])
})

test('of many prints the one said of longest ago is forgotten first', () => {
  for (let k = 0; k < 200; k++) sayMaterial(`print ${k}`, 'pla')
  sayMaterial('print 0', 'petg')
  sayMaterial('one more', 'pla')
  expect(materialOf('print 0')).toBe('petg')
  expect(materialOf('print 1')).toBe(null)
  expect(materialOf('print 2')).toBe('pla')
})

test.each(['', 'null', '{}', '[["a"],3,["b","pla"]]'])('%j that is kept does no harm', (text) => {
  keep('materials', text)
  expect(materialOf('a')).toBe(null)
  expect(materialOf('b')).toBe(text.includes('pla') ? 'pla' : null)
})

const waiting = (print: string, ...materials: readonly (string | null)[]) => ({
  row: {
    print,
    tools: materials.flatMap((material, tool) => (material === null ? [] : [{ tool, material }])),
  } as unknown as WaitingRowJson,
  tools: materials.map((_, tool) => ({ tool, draw_mm: 1 })),
})

test.each([
  ['no such print', [waiting('other', 'pla')], null],
  ['one material', [waiting('it', 'pla'), waiting('other', 'petg')], 'pla'],
  ['one for both tools', [waiting('it', 'pla', 'pla')], 'pla'],
  ['one a tool', [waiting('it', 'pla', 'tpu')], null],
  ['any for one of its tools', [waiting('it', 'pla', null)], null],
  ['any', [waiting('it', null)], null],
  ['twice, of the same', [waiting('it', 'pla'), waiting('it', 'pla')], 'pla'],
  ['twice, of another', [waiting('it', 'pla'), waiting('it', 'petg')], null],
])('the slate has a print made of: %s', (_, rows, material) =>
  expect(wishedMaterial(rows, 'it')).toBe(material),
)

test('an answer that nobody chose the material of is told with its names, each once', () => {
  const materials = [
    { id: 'pla', name: 'PLA', reels: 3 },
    { id: '7K2MD', name: 'Harbour blend', reels: 1 },
    { id: null, name: null, reels: 1 },
  ]
  const of = (...ids: readonly (string | null)[]) =>
    materialsOf(
      { tools: ids.map((material) => ({ reel: { material } }) as ToolCheckJson) },
      materials,
    )
  expect(of('7K2MD')).toEqual(['Harbour blend'])
  expect(of('pla', 'pla')).toEqual(['PLA'])
  expect(of('pla', null)).toEqual(['PLA', 'an unknown material'])
})
