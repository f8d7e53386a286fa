import { expect, test } from 'vitest'
import { wrap } from '../../src/cli/wrap.ts'

test('breaks at spaces and hangs the rest under the first', () => {
  expect(wrap('one two three four', '  - ', '    ', 14)).toBe('  - one two\n    three four')
})

test.each(['58 %', '> 99.9 %', '30 ± 60 g', 'z 35.1 mm', 'layer 117', '3 min'])(
  'never breaks %s',
  (figure) => {
    for (let length = 1; length < 40; length++) {
      const text = `${'x'.repeat(length)} ${figure} and so on`
      expect(wrap(text, '', '', 30)).toContain(figure)
    }
  },
)

test('a word longer than the line stands by itself', () => {
  expect(wrap('a bbbbbbbbbb c', '', '', 5)).toBe('a\nbbbbbbbbbb\nc')
})
