import { spawnSync } from 'node:child_process'
import { chmodSync, copyFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Command } from 'commander'
import { beforeAll, describe, expect, test } from 'vitest'
import { program } from '../../dist/cli/program.js'
import { findingsPage } from '../../scripts/findings-docs.ts'
import { jsonPage } from '../../scripts/json-docs.ts'
import { helpText } from '../../src/cli/help-text.ts'
import { firmwareFamilies } from '../../src/print/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const at = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url))
const page = (path: string): string => readFileSync(at(`docs/${path}`), 'utf8')
const commandLine = page('command-line.md')

const folder = folderOfPrints()
writeFileSync(
  join(folder, 'reelreckon'),
  `#!/bin/sh\nexec "${process.execPath}" "${at('dist/bundle/main.js')}" "$@"\n`,
)
chmodSync(join(folder, 'reelreckon'), 0o755)
// Names that the examples of --help use.
copyFileSync(join(folder, 'tackle-box.gcode'), join(folder, 'box.gcode'))
copyFileSync(join(folder, 'two-tool-part.gcode'), join(folder, 'two.gcode'))
writeFileSync(join(folder, 'long.gcode'), 'M83\nG1 Z0.2\nG1 X50 E10\nM600\nG1 X0 E10\n')
writeFileSync(
  join(folder, 'plates.zip'),
  zipOf([{ name: 'a.gcode', bytes: readFileSync(join(folder, 'knob.gcode')) }]),
)

/** The examples of the ledger run one after the other, on the bench's. */
const env = {
  ...process.env,
  PATH: `${folder}:${process.env['PATH'] ?? ''}`,
  REELRECKON_DATA: join(folder, 'data'),
}
spawnSync(process.execPath, [at('dist/bundle/main.js'), 'import', 'marrowick.ndjson'], {
  cwd: folder,
  env,
})

/** Exit code of a line given to the shell. */
const shell = (line: string): readonly [number | null, string] => {
  const { status, stderr } = spawnSync('sh', ['-c', line], {
    cwd: folder,
    env,
    encoding: 'utf8',
  })
  return [status, stderr]
}

const runs = (line: string): void => {
  const [status, err] = shell(line)
  expect(err).toBe('')
  expect([0, 10, 20]).toContain(status)
}

const examples = [...commandLine.matchAll(/```sh\n([\s\S]*?)```/g)].flatMap(([, block = '']) =>
  block.trim().split('\n'),
)

test('the page has examples', () => {
  expect(examples.length).toBeGreaterThan(20)
})

test.each(examples)('%s', runs)

const asking = ['reel list', 'reel show', 'backup', 'restore', 'export', 'import']
const helps = [
  ['--help'],
  ['read', '--help'],
  ['check', '--help'],
  ...asking.map((name) => `${name} --help`.split(' ')),
].flatMap((words) =>
  runCli(words)
    .out.replaceAll(/ \\\n\s+/g, ' ')
    .split('\n')
    .filter((line) => line.startsWith('  reelreckon '))
    .map((line) => line.trim().replace(/\s{2,}.*$/, ''))
    .filter((line) => !line.includes('shows what')),
)

test('--help teaches by example', () => {
  expect(helps.length).toBeGreaterThan(10)
})

describe('--help', () => {
  // The page's examples have made files of the same names.
  beforeAll(() => {
    for (const name of ['shelf-backup.sqlite', 'shelf.ndjson', 'shelf-tables']) {
      rmSync(join(folder, name), { recursive: true, force: true })
    }
  })

  test.each(helps)('%s', runs)
})

interface CommandFound {
  readonly name: string
  readonly options: readonly string[]
}

/** Every command with its options, as commander knows them. */
const leaves = (command: Command, path = ''): readonly CommandFound[] =>
  command.commands.flatMap((each) => {
    const name = `${path} ${each.name()}`.trim()
    if (each.commands.length > 0) return leaves(each, name)
    return { name, options: each.options.map(({ long }) => long ?? '') }
  })
const commands = leaves(program())

describe.each(commands)('$name', ({ name, options }) => {
  const from = commandLine.indexOf(`\n## reelreckon ${name}\n`)
  const section = commandLine.slice(from, commandLine.indexOf('\n## ', from + 1))

  test('has a heading', () => {
    expect(from).toBeGreaterThan(0)
  })

  test.each(options)('%s has a row', (option) => {
    expect(section).toMatch(new RegExp(`^\\| \`${option}[ \`]`, 'm'))
  })

  test('every option is used in an example', () => {
    const unused = options.filter(
      (option) =>
        !['--member'].includes(option) &&
        !new RegExp(`${option}\\b`).test(commandLine.replaceAll(/^\|.*$/gm, '')),
    )
    expect(unused).toEqual([])
  })

  test('no row is of an option that is not', () => {
    const rows = [...section.matchAll(/^\| `(--[a-z0-9-]+)/gm)].map(([, option]) => option)
    expect(rows.filter((option) => !options.includes(option ?? ''))).toEqual([])
  })
})

test.each(firmwareFamilies)('firmware $id is explained', ({ id }) => {
  expect(commandLine).toMatch(new RegExp(`^\\| \`${id}\` +\\|`, 'm'))
})

test('--help stands as text, and is what commander would show', () => {
  let shown = ''
  const commander = program()
  commander.configureOutput({ writeOut: (text) => (shown += text) })
  commander.outputHelp()
  expect(helpText).toBe(shown)
  expect(runCli(['--help']).out).toBe(shown)
})

test('--version is the version of the package', () => {
  const { version } = JSON.parse(readFileSync(at('package.json'), 'utf8')) as { version: string }
  expect(runCli(['--version']).out).toBe(`${version}\n`)
})

test('json.md is as the schemas have it', () => {
  expect(page('json.md')).toBe(jsonPage())
})

describe('findings.md', () => {
  const findings = page('method/findings.md')

  test('has the table as the catalogue has it', () => {
    expect(findings).toBe(findingsPage())
  })

  test('has every code that the reader and the containers can give', () => {
    const folderOfReader = at('src/print/')
    const sources = readdirSync(folderOfReader).map((name) =>
      readFileSync(join(folderOfReader, name), 'utf8'),
    )
    const codes = sources.flatMap((source) =>
      [...source.matchAll(/(?:code: |(?:stopContainer|ask)\(\s*)'([a-z0-9_]+)'/g)].map(
        ([, code]) => code,
      ),
    )
    expect(codes.length).toBeGreaterThan(30)
    expect(codes.filter((code) => !findings.includes(`\`${code}\``))).toEqual([])
  })

  test('has every code of the command line’s input', () => {
    const source = readFileSync(at('src/cli/read-input.ts'), 'utf8')
    const codes = [...source.matchAll(/(?:code: |: \[)'([a-z_]+)'/g)].map(([, code]) => code)
    expect(codes.length).toBeGreaterThan(5)
    expect(codes.filter((code) => !findings.includes(`\`${code}\``))).toEqual([])
  })
})
