import { expect, it } from 'vitest'
import { type ColourRule, type ReelTraits, reelsThatFit } from '../../src/match/index.ts'

const reel = (id: string, more: Partial<ReelTraits> = {}): ReelTraits => ({
  id,
  material: 'PLA',
  diameter_mm: 1.75,
  colour: 'buoy red',
  ...more,
})
const reels = [
  reel('red'),
  reel('Red', { colour: ' Buoy  Red' }),
  reel('black', { colour: 'tar black' }),
  reel('untold', { colour: null }),
  reel('petg', { material: 'petg' }),
  reel('unsaid', { material: null }),
  reel('thick', { diameter_mm: 2.85 }),
]
const fits = (colour: ColourRule, material: string | null = 'pla') =>
  reelsThatFit({ material, diameter_mm: 1.75, colour }, reels)

it('holds a colour to its name, whatever its capitals and spaces', () => {
  expect(fits({ kind: 'exact', colour: 'Buoy Red' }).fits).toEqual(['red', 'Red'])
})
it('takes any of several colours', () => {
  const rule: ColourRule = { kind: 'any_of', colours: ['tar black', 'buoy red'] }
  expect(fits(rule).fits).toEqual(['red', 'Red', 'black'])
})
it('takes a reel of no told colour where the colour is no matter', () => {
  expect(fits({ kind: 'any' }).fits).toEqual(['red', 'Red', 'black', 'untold'])
})
it('says what would fit if the colour were no matter', () => {
  expect(fits({ kind: 'exact', colour: 'tar black' }).inAnyColour).toEqual([
    'red',
    'Red',
    'black',
    'untold',
  ])
})
it('takes any material where none is asked for, and no other diameter', () => {
  expect(fits({ kind: 'exact', colour: 'buoy red' }, null).fits).toEqual([
    'red',
    'Red',
    'petg',
    'unsaid',
  ])
})
it('refuses a rule that nothing can meet', () => {
  expect(() => fits({ kind: 'any_of', colours: [] })).toThrow(/no colour/)
})
