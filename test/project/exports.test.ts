import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const {
  name,
  bin,
  exports: doors,
} = JSON.parse(readFileSync('package.json', 'utf8')) as {
  readonly name: string
  readonly bin: Readonly<Record<string, string>>
  readonly exports: Readonly<Record<string, { readonly types: string; readonly default: string }>>
}

/** Names that a plain Node finds behind a specifier, as an installed package would. */
const namesBehind = (specifier: string): string[] =>
  JSON.parse(
    execFileSync(
      process.execPath,
      [
        '--input-type=module',
        '-e',
        'console.log(JSON.stringify(Object.keys(await import(process.argv[1]))))',
        specifier,
      ],
      { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] },
    ),
  )

test.each([
  ['units', 'parseMass'],
  ['filament', 'linearDensity'],
  ['print', 'readPrint'],
  ['estimate', 'reckonReel'],
  ['verdict', 'judgePrint'],
  ['match', 'matchSlate'],
  ['solver', 'matchInThread'],
])('%s brings %s', (layer, expected) => {
  expect(namesBehind(`${name}/${layer}`)).toContain(expected)
})

test.each(Object.entries(doors))('%s resolves, with its types', (door, files) => {
  expect(() => namesBehind(door.replace('.', name))).not.toThrow()
  expect(existsSync(files.types)).toBe(true)
  expect(existsSync(files.default)).toBe(true)
})

test('what is no door does not resolve', () => {
  expect(() => namesBehind(`${name}/print/print-reader.js`)).toThrow(/not defined by "exports"/)
})

test.each(Object.entries(bin))('the program %s is there', (_, file) => {
  expect(existsSync(file)).toBe(true)
})
