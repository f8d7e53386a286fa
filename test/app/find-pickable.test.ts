import { expect, test } from 'vitest'
import { findPickable, meantPickable, namedPickable } from '../../src/app/field/find-pickable.ts'

const items = [
  { id: 'own', name: 'PETG', words: [] },
  { id: 'petg', name: 'PETG', words: ['PET-G', 'glycol PET'] },
  { id: 'petg-cf', name: 'PETG-CF', words: ['glycol PET'] },
  { id: 'K8V53', name: 'K8V53, Signal Grün, Guille ABS', words: ['ABS', 'net shed'] },
]

test('words are found in any case, in id, name or words', () => {
  expect(findPickable(items, ' GRÜN  shed ').map(({ id }) => id)).toEqual(['K8V53'])
  expect(findPickable(items, 'gru\u0308n').map(({ id }) => id)).toEqual(['K8V53'])
  expect(findPickable(items, 'petg').map(({ id }) => id)).toEqual(['own', 'petg', 'petg-cf'])
})

test('a whole id, name or word names one, though it is part of others', () => {
  expect(namedPickable(items, 'k8v53')?.id).toBe('K8V53')
  expect(namedPickable(items, 'petg-CF ')?.id).toBe('petg-cf')
  expect(namedPickable(items, 'pet-g')?.id).toBe('petg')
  expect(namedPickable(items, 'PETG')?.id).toBe('petg')
  expect(namedPickable(items.slice(0, 1), 'petg')?.id).toBe('own')
})

test('what two have names none, and part of one names it only once it is left standing', () => {
  expect(namedPickable(items, 'glycol pet')).toBeNull()
  expect(meantPickable(items, 'glycol pet')).toBeNull()
  expect(namedPickable(items, 'signal')).toBeNull()
  expect(meantPickable(items, 'signal')?.id).toBe('K8V53')
  expect(meantPickable(items, 'harbour')).toBeNull()
})
