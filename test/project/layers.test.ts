import { spawnSync } from 'node:child_process'
import {
  cpSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest'

// The guards of the layers, shown able to fail: each mistake is planted in a copy of the sources.

const pureLayers = [
  'units',
  'filament',
  'print',
  'picture',
  'estimate',
  'verdict',
  'match',
  'contract',
  'ledger',
]
const upperLayers = ['store', 'service', 'http', 'cli']

const copy = mkdtempSync(join(tmpdir(), 'reelreckon-layers-'))
const modules = resolve('node_modules')

beforeAll(() => {
  for (const name of ['src', 'tsconfig.base.json', '.oxlintrc.json', 'package.json']) {
    cpSync(name, join(copy, name), { recursive: true })
  }
  symlinkSync(modules, join(copy, 'node_modules'))
  // A layer is refused by any file of it: one that needs no other is soon read.
  for (const layer of [...pureLayers, ...upperLayers]) {
    writeFileSync(join(copy, 'src', layer, 'leaf.ts'), 'export const leaf: number = 1\n')
  }
})
afterAll(() => rmSync(copy, { recursive: true }))

interface Verdict {
  readonly passes: boolean
  readonly output: string
}

const run = (program: string, words: readonly string[]): Verdict => {
  const { status, stdout, stderr } = spawnSync(join(modules, '.bin', program), words, {
    cwd: copy,
    encoding: 'utf8',
  })
  return { passes: status === 0, output: stdout + stderr }
}

/** Judges a layer with one more file in it. */
const planted = (layer: string, code: string, judge: () => Verdict): Verdict => {
  const file = join(copy, 'src', layer, 'planted.ts')
  writeFileSync(file, `${code}\n`)
  // Written within the same tick as the last build, the file would pass for built already.
  const later = Date.now() / 1000 + 60
  utimesSync(file, later, later)
  try {
    return judge()
  } finally {
    rmSync(file)
  }
}

const referencesOf = (layer: string): readonly string[] => {
  const { references } = JSON.parse(readFileSync(join('src', layer, 'tsconfig.json'), 'utf8'))
  return (references as readonly { readonly path: string }[]).map(({ path }) =>
    path.replace('../', ''),
  )
}

/** What the compiler has against each line of a file planted in a layer; empty where nothing. */
const complaintsOf = (layer: string, lines: readonly string[]): readonly string[] => {
  const { output } = planted(layer, lines.join('\n'), () => run('tsc', ['-b', `src/${layer}`]))
  return lines.map((_, k) => new RegExp(`planted\\.ts\\(${k + 1},.*`).exec(output)?.[0] ?? '')
}

describe.each(pureLayers)('the compiler guards %s', (layer) => {
  const build = (): Verdict => run('tsc', ['-b', `src/${layer}`])
  const above = [...pureLayers, ...upperLayers].filter(
    (other) => other !== layer && !referencesOf(layer).includes(other),
  )

  it('as it is, compiles', () => {
    expect(build()).toEqual({ passes: true, output: '' })
  })
  it('takes another file', () => {
    expect(planted(layer, 'export const one: number = 1', build).passes).toBe(true)
  })
  it('refuses the file system, the page and the process', () => {
    expect(
      complaintsOf(layer, [
        "export { readFileSync } from 'node:fs'",
        'export const title: string = document.title',
        'export const pid: number = process.pid',
        'export const one: number = 1',
      ]),
    ).toEqual([
      expect.stringMatching(/TS(2307|2591)/),
      expect.stringMatching(/TS(2304|2584)/),
      expect.stringMatching(/TS(2304|2580|2591)/),
      '',
    ])
  })
  it(`refuses every layer that it may not know: ${above.join(', ')}`, () => {
    const told = complaintsOf(
      layer,
      above.map((other) => `export { leaf as ${other} } from '../${other}/leaf.ts'`),
    )
    expect(told).toEqual(above.map((other) => expect.stringMatching(leafRefused(other))))
  })
})

const leafRefused = (layer: string): RegExp => new RegExp(`TS(6307|6059).*/${layer}/leaf\\.ts`)

const lint = (): Verdict => run('oxlint', ['--deny-warnings', 'src/filament/planted.ts'])

describe('the linter guards the doors', () => {
  test('another layer is entered by its index', () => {
    const code = "export { parseMass } from '../units/index.ts'"
    expect(planted('filament', code, lint)).toMatchObject({ passes: true })
  })
  test.each(['../units/parse-mass.ts', '../print/reading.ts', '../verdict/margin.ts'])(
    '%s is refused',
    (file) => {
      const { passes, output } = planted('filament', `export * from '${file}'`, lint)
      expect(output).toContain('A layer is entered by its index.ts only.')
      expect(passes).toBe(false)
    },
  )
})
