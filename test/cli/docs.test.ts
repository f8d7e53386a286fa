import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  copyFileSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Command } from 'commander'
import { describe, expect, test } from 'vitest'
import { program } from '../../dist/cli/program.js'
import { findingsPage } from '../../scripts/findings-docs.ts'
import { jsonPage } from '../../scripts/json-docs.ts'
import { helpText } from '../../src/cli/help-text.ts'
import { sheetWidth } from '../../src/cli/wrap.ts'
import { firmwareFamilies } from '../../src/print/index.ts'
import { zipOf } from '../zip-of.ts'
import { writeDocsLedger } from './docs-ledger.ts'
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

mkdirSync(join(folder, 'prints', 'older'), { recursive: true })
copyFileSync(join(folder, 'knob.gcode'), join(folder, 'prints', 'knob.gcode'))
copyFileSync(join(folder, 'hinge-pin.gcode'), join(folder, 'prints', 'older', 'hinge-pin.gcode'))

// The ledger that the examples are about. Those of the page run in it one after the other.
const ledger = mkdtempSync(join(tmpdir(), 'reelreckon-docs-'))
await writeDocsLedger(ledger)
// Questions and what keeps the ledger are asked of the bench's own.
const bench = join(folder, 'data')
for (const data of [bench, join(folder, 'second-ledger')]) {
  const words = [at('dist/bundle/main.js'), 'import', 'marrowick.ndjson', '--data', data]
  spawnSync(process.execPath, words, { cwd: folder })
}
const ofTheBench =
  /^(?:[^|]*\| )?reelreckon (?:check|reel list|reel show|backup|restore|export|import)\b/
const fresh = mkdtempSync(join(tmpdir(), 'reelreckon-docs-'))
cpSync(ledger, fresh, { recursive: true })

/** As `outcome`, of a line given to the shell. */
const shell = (line: string, data: string): readonly [number | null, string] => {
  const { status, stderr } = spawnSync('sh', ['-c', line], {
    cwd: folder,
    env: {
      ...process.env,
      PATH: `${folder}:${process.env['PATH'] ?? ''}`,
      REELRECKON_DATA: data,
    },
    encoding: 'utf8',
  })
  return [status, stderr]
}

/** Words of a line that needs nothing of a shell but its single quotes; null where it needs more. */
const plainWords = (line: string): readonly string[] | null => {
  const [first, ...words] = [...line.matchAll(/((?:[^\s']|'[^']*')+)/g)].map(([, word = '']) =>
    word.replaceAll("'", ''),
  )
  const unquoted = line.replaceAll(/'[^']*'/g, '')
  return first === 'reelreckon' && /^[\w\s./:=,%±+-]+$/.test(unquoted) ? words : null
}

/** Exit code of a line, with a ledger; and what it complains of. */
const outcome = (line: string, data: string): readonly [number | null, string] => {
  const words = plainWords(line)
  if (words === null) return shell(line, data)
  const { exit, err } = runCli(words, { cwd: folder, env: { REELRECKON_DATA: data } })
  return [exit, err]
}

const runs = (line: string, data: string): void => {
  const [status, err] = outcome(line, data)
  expect(err).toBe('')
  expect([0, 10, 20]).toContain(status)
}

/** What runs until it is ended has tests of its own. */
const stays = /^reelreckon (?:serve|watch)\b/

const examples = [...commandLine.matchAll(/```sh\n([\s\S]*?)```/g)].flatMap(([, block = '']) =>
  block
    .trim()
    .split('\n')
    .filter((line) => !stays.test(line)),
)

test('the page has examples', () => {
  expect(examples.length).toBeGreaterThan(20)
})

test.each(examples)('%s', (line) => runs(line, ofTheBench.test(line) ? bench : ledger))

interface Leaf {
  /** As `reel add`. */
  readonly name: string
  readonly options: readonly string[]
}

/** Every command that does something, with its options, as commander knows them. */
const leavesOf = (command: Command, path: readonly string[] = []): readonly Leaf[] =>
  command.commands.flatMap((each) => {
    const whole = [...path, each.name()]
    return each.commands.length > 0
      ? leavesOf(each, whole)
      : [{ name: whole.join(' '), options: each.options.map(({ long }) => long ?? '') }]
  })

const leaves = leavesOf(program())

const helps = [[], ...leaves.map(({ name }) => name.split(' '))].flatMap((words) =>
  runCli([...words, '--help'])
    .out.replaceAll(/ \\\n\s+/g, ' ')
    .split('\n')
    .filter((line) => line.startsWith('  reelreckon '))
    .map((line) => line.trim().replace(/\s{2,}.*$/, ''))
    // What the page has, too, was run above.
    .filter(
      (line) => !line.includes('shows what') && !stays.test(line) && !examples.includes(line),
    ),
)

test('--help teaches by example', () => {
  expect(helps.length).toBeGreaterThan(10)
})

// What the page's examples wrote stands in the way of the same examples of --help.
const leftOver = ['shelf-backup.sqlite', 'shelf.ndjson', 'shelf-tables']

test.each(helps)('%s', (line) => {
  if (ofTheBench.test(line)) {
    if (/ (?:backup|export) /.test(line)) {
      for (const name of leftOver) {
        if (line.split(' ').includes(name))
          rmSync(join(folder, name), { recursive: true, force: true })
      }
    }
    runs(line, bench)
    return
  }
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-docs-'))
  cpSync(fresh, data, { recursive: true })
  runs(line, data)
})

/** The names in a heading as `make add, change`. */
const namesIn = (heading: string): readonly string[] => {
  const [first = '', ...more] = heading.split(', ')
  const group = first.includes(' ') ? `${first.split(' ')[0]} ` : ''
  return [first, ...more.map((verb) => group + verb)]
}

const sections = commandLine.split(/^## /m).map((text) => {
  const [heading = ''] = text.split('\n', 1)
  const names = heading.startsWith('reelreckon ') ? namesIn(heading.slice(11)) : []
  return { names, text }
})
const shared =
  /^### Options of every command of the ledger\n([\s\S]*?)^#/m.exec(commandLine)?.[1] ?? ''
const hasRow = (text: string, option: string): boolean =>
  new RegExp(`^\\| \`${option}[ \`]`, 'm').test(text)

describe.each(leaves)('$name', ({ name, options }) => {
  const section = sections.find(({ names }) => names.includes(name))?.text ?? ''

  test('has a heading', () => {
    expect(section).not.toBe('')
  })

  test('has a row for each option', () => {
    expect(options.filter((option) => !hasRow(section, option) && !hasRow(shared, option))).toEqual(
      [],
    )
  })

  test('every option is used in an example', () => {
    const unused = options.filter(
      (option) =>
        !['--member', '--ran-dry'].includes(option) &&
        !new RegExp(`${option}\\b`).test(commandLine.replaceAll(/^\|.*$/gm, '')),
    )
    expect(unused).toEqual([])
  })
})

test.each(sections.filter(({ names }) => names.length > 0))(
  'no row of $names is of an option that is not',
  ({ names, text }) => {
    const own = leaves.filter(({ name }) => names.includes(name))
    const known = new Set(own.flatMap(({ options }) => options))
    const rows = [...text.matchAll(/^\| `(--[a-z0-9-]+)/gm)].map(([, option]) => option)
    expect(rows.filter((option) => !known.has(option ?? ''))).toEqual([])
    expect(names.filter((name) => !leaves.some((leaf) => leaf.name === name))).toEqual([])
  },
)

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

describe('help is no wider than a terminal', () => {
  const all = (of: Command, path = 'reelreckon'): readonly (readonly [string, Command])[] => [
    [path, of],
    ...of.commands.flatMap((each) => all(each, `${path} ${each.name()}`)),
  ]

  test.each(all(program()))('%s', (_, one) => {
    let shown = ''
    one.configureOutput({ writeOut: (text) => (shown += text) })
    one.outputHelp()
    expect(shown).toContain('Usage: ')
    expect(shown.split('\n').filter((line) => line.length > sheetWidth)).toEqual([])
  })
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
