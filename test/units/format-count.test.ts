import { expect, test } from 'vitest'
import { formatCount } from '../../src/units/index.ts'

test.each([
  [0, 'layer', undefined, '0 layers'],
  [1, 'layer', undefined, '1 layer'],
  [2, 'copy', 'copies', '2 copies'],
  [1, 'more fact hangs', 'more facts hang', '1 more fact hangs'],
  [12_345, 'byte', undefined, '12,345 bytes'],
] as const)('%s %s', (count, one, several, said) => {
  expect(formatCount(count, one, several)).toBe(said)
})
