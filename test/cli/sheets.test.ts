import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { folderOfPrints, runCli } from './run-cli.ts'

const marrowick = ['--ledger', 'marrowick.ndjson'] as const

/**
 * What a person reads, kept as text. To take a wanted change over: `SHEETS=write npx vitest run
 * test/cli/sheets.test.ts`, then look at each with your own eyes.
 */
const sheets: readonly (readonly [name: string, words: readonly string[]])[] = [
  [
    'enough',
    ['check', 'tackle-box.gcode', '--gross', '905g', '--tare-of-make', '279g', '--material', 'PLA'],
  ],
  [
    'close',
    ['check', 'tackle-box.gcode', '--gross', '422g', '--label', '1kg', '--material', 'PLA'],
  ],
  [
    'short',
    ['check', 'tackle-box.gcode', '--gross', '360g', '--tare', '279g', '--density', '1.24'],
  ],
  ['short-spiral', ['check', 'vase.gcode', '--gross', '186g', '--tare', '154g', '--label', '1kg']],
  [
    'short-length',
    ['check', '--draw', '62m', '--gross', '422g', '--tare', '250g', '--density', '1.24'],
  ],
  [
    'two-tools',
    [
      'check',
      'two-tool-part.gcode',
      '--tool',
      'T0: gross=905g, tare-of-make=279g, material=PLA',
      '--tool',
      'T1: gross=171g, carrier=cardboard, material=PLA',
    ],
  ],
  [
    'shelf',
    ['check', 'tackle-box.gcode', '--material', 'PLA', '--printer', 'the Gull', ...marrowick],
  ],
  ['shelf-two-tools', ['check', 'two-tool-part.gcode', '--make', 'Ostrelle', ...marrowick]],
  [
    'shelf-reel',
    ['check', 'tackle-box.gcode', '--reel', 'REYRT', '--printer', 'the Gull', ...marrowick],
  ],
  ['reel-list', ['reel', 'list', '--all', ...marrowick]],
  ['reel-show', ['reel', 'show', 'REYRT', ...marrowick]],
  ['reel-show-then', ['reel', 'show', 'oilskin', '--at', '2025-10-01', ...marrowick]],
  ['read', ['read', 'tackle-box.gcode', '--material', 'PLA']],
  ['read-two-tools', ['read', 'two-tool-part.gcode']],
]

const folder = folderOfPrints()

const answerOf = (sheet: string): string | undefined => /[A-Z]{5,6}, chance.*/.exec(sheet)?.[0]

describe.each(sheets)('%s', (name, words) => {
  const utc = { TZ: 'UTC' }
  // How long ago something was depends on the day of the test.
  const sheet = (more: Readonly<Record<string, string>>): string =>
    runCli(words, { cwd: folder, env: { ...utc, ...more } }).out.replaceAll(
      /, (?:\d+ (?:days|months|years) ago|today|yesterday)/g,
      ', SOME TIME AGO',
    )
  const out = sheet({})
  const path = new URL(`./sheets/${name}.txt`, import.meta.url)
  if (process.env['SHEETS'] === 'write') writeFileSync(path, out)

  test('is as kept', () => {
    expect(out).toBe(readFileSync(path, 'utf8'))
  })

  test('fits a terminal of 80 columns', () => {
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
  })

  test('where the locale is plain it is ASCII, and says the same', () => {
    const plain = sheet({ LC_ALL: 'C' })
    expect(plain).toMatch(/^[\n -~]*$/)
    expect(plain).not.toContain('?')
    expect(answerOf(plain)).toBe(answerOf(out))
  })
})
