import { expect, test } from 'vitest'
import { harmless, paint, shown, terminalOf } from '../../src/cli/terminal.ts'

const env = { LANG: 'en_GB.UTF-8', TERM: 'xterm-256color' }

test.each([
  ['a terminal', true, env, '256'],
  ['a terminal of many colours', true, { ...env, COLORTERM: 'truecolor' }, 'full'],
  ['a pipe', false, { ...env, COLORTERM: 'truecolor' }, 'none'],
  ['NO_COLOR', true, { ...env, NO_COLOR: '1' }, 'none'],
  ['NO_COLOR, but empty', true, { ...env, NO_COLOR: '' }, '256'],
  ['a dumb terminal', true, { ...env, TERM: 'dumb' }, 'none'],
] as const)('colour on %s', (_, isTerminal, environment, colour) => {
  expect(terminalOf(isTerminal, environment, 'linux').colour).toBe(colour)
})

test.each([
  [{ LANG: 'en_GB.UTF-8' }, true],
  [{ LC_ALL: 'C', LANG: 'en_GB.UTF-8' }, false],
  [{ LC_ALL: '', LC_CTYPE: 'C.utf8' }, true],
  [{}, false],
])('%j has letters beyond ASCII: %s', (environment, unicode) => {
  expect(terminalOf(true, environment, 'linux').unicode).toBe(unicode)
})

test('a text without its colours says the same', () => {
  const painted = paint({ colour: 'full', unicode: true }, 'short', 'SHORT')
  expect(painted).toBe('\u001B[38;2;213;94;0mSHORT\u001B[0m')
  expect(paint({ colour: 'none', unicode: true }, 'short', 'SHORT')).toBe('SHORT')
})

test('ASCII in place of what can not be shown', () => {
  expect(shown({ colour: 'none', unicode: false }, '╭─╮ 30 ± 60 g/m³ │▲│ Ω')).toBe(
    '.-. 30 +- 60 g/m3 |^| ?',
  )
})

test('nothing that moves the cursor', () => {
  expect(harmless('a\u001B[2Jb\u0007c\u202Ed\ne')).toBe('a\uFFFD[2Jb\uFFFDc\uFFFDd\uFFFDe')
})
