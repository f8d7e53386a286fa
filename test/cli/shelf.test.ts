import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import {
  checkJson,
  errorJson,
  importJson,
  keptJson,
  reelListJson,
  reelShowJson,
  shelfCheckJson,
} from '../../src/contract/index.ts'
import { type CliRun, folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const from = ['--ledger', 'marrowick.ndjson'] as const
const run = (...words: readonly string[]): CliRun => runCli(words, { cwd: folder })
const codeOf = ({ out }: CliRun): string => errorJson.parse(JSON.parse(out)).error.code

const plain = (text: string): string => text.replaceAll(/\s+/g, ' ')

const recordedReel = (out: string): string => /"reel": "(\w{5})"/.exec(out)![1]!

/** Records by id; the keys come back in the schema's order. */
const body = (text: string): readonly unknown[] =>
  text
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => JSON.parse(line) as { id: string })
    .toSorted((a, b) => (a.id < b.id ? -1 : 1))

test.each(['make', 'scale', 'opened'])(
  'a file of facts that lacks a %s is refused by name',
  (kind) => {
    const lines = readFileSync(join(folder, 'marrowick.ndjson'), 'utf8').split('\n')
    const first = lines.findIndex((line) => line.includes(`"kind":"${kind}"`))
    expect(first).toBeGreaterThan(0)
    writeFileSync(join(folder, 'lacking.ndjson'), lines.toSpliced(first, 1).join('\n'))
    const { exit, out, err } = run('check', 'knob.gcode', '--ledger', 'lacking.ndjson')
    expect([exit, out]).toEqual([3, ''])
    expect(plain(err)).toMatch(
      /lacking\.ndjson.*names a (?:make|scale|reel) that .*: \w+\. .*give the file whole/,
    )
  },
)

/** A table of two reels, the second with this in its gross. */
const sheet = (cells: string): void =>
  writeFileSync(
    join(folder, 'reels.csv'),
    `\uFEFFMaker;Product;Colour;Gross;Label\nTessamund;PLA;"pink; pale";812;1 kg\nTessamund;PLA;mauve;${cells};1 kg\n`,
  )

const says = (reel: string): string =>
  `A print that was started on the Gull feeds from reel ${reel} and is not recorded yet`

describe('check over the shelf', () => {
  test('writes JSON by its schema', () => {
    const { exit, out } = run('check', 'tackle-box.gcode', ...from, '--json')
    const answer = shelfCheckJson.parse(JSON.parse(out))
    expect([exit, answer.verdict, answer.printer?.stands_in]).toEqual([0, 'enough', true])
    const [tool] = answer.tools
    expect(tool?.reels).toHaveLength(tool!.enough + tool!.close + 1)
    const every = run('check', 'tackle-box.gcode', ...from, '--json', '--all')
    expect(shelfCheckJson.parse(JSON.parse(every.out)).tools[0]?.reels).toHaveLength(12)
  })

  test('exits by the best reel', () => {
    expect(run('check', 'tackle-box.gcode', ...from, '--colour', 'grey').exit).toBe(10)
    expect(run('check', 'tackle-box.gcode', ...from, '--colour', 'blue').exit).toBe(20)
    const none = run('check', 'knob.gcode', ...from, '--colour', 'mauve')
    expect([none.exit, none.out.includes('No reel in use fits colour mauve.')]).toEqual([20, true])
  })

  test('of a file that draws nothing no reel is called enough', () => {
    const moves = readFileSync(join(folder, 'knob.gcode'), 'utf8').replaceAll(/ E[-.0-9]+/g, '')
    writeFileSync(join(folder, 'dry.gcode'), moves)
    const words = ['check', 'dry.gcode', ...from, '--all']
    const { exit, out } = run(...words)
    expect([exit, plain(out).includes('no chance to be told')]).toEqual([10, true])
    expect(out).not.toContain('enough')
    const [tool] = shelfCheckJson.parse(JSON.parse(run(...words, '--json').out)).tools
    expect([tool?.enough, tool?.close]).toEqual([0, 12])
  })

  test('of a reel that contradicts itself it says what, and tells no chance', () => {
    const reel = 'QX5BN'
    const lines = readFileSync(join(folder, 'marrowick.ndjson'), 'utf8').trim().split('\n')
    const last = lines.findLastIndex(
      (line) => line.includes('"kind":"weighed"') && line.includes(`"reel":"${reel}"`),
    )
    lines[last] = lines[last]!.replace(
      /("reading_g":)(\d+)/,
      (_, key, grams) => `${key}${Number(grams) + 300}`,
    )
    writeFileSync(join(folder, 'slip.ndjson'), `${lines.join('\n')}\n`)
    const words = ['check', 'knob.gcode', '--ledger', 'slip.ndjson']
    const alone = run(...words, '--reel', reel)
    const [why] =
      /What is told of reel QX5BN does not agree, so nothing is sure: look at [^.]*\./.exec(
        plain(alone.out),
      )!
    expect(alone.out).not.toMatch(/^ {2}(?:reel|margin|tare|per metre|feed) /m)
    expect(alone.out).toMatch(/^ {2}weighed {3}/m)
    const { out } = run(...words, '--colour', 'foam white')
    expect(plain(out)).toContain(why)
    expect(plain(out)).toMatch(/close – QX5BN/)
  })

  test('of reels that feed a print which runs it says so, and takes them last', () => {
    const lines = readFileSync(join(folder, 'marrowick.ndjson'), 'utf8').trim().split('\n')
    const gull = lines
      .map((line) => JSON.parse(line) as Readonly<Record<string, unknown>>)
      .find(({ kind, name }) => kind === 'printer' && name === 'the Gull')
    const at = '2026-03-01T12:00:00.000Z'
    const running = (...reels: readonly string[]): string =>
      JSON.stringify({
        kind: 'running',
        id: '94Y7AQJ6D',
        changed_at: at,
        print: 'ab'.repeat(32),
        printer: gull?.['id'],
        started_at: at,
        recorded_at: at,
        reels: reels.map((reel, tool) => ({ tool, reel })),
      })
    const checked = (...reels: readonly string[]): string => {
      writeFileSync(join(folder, 'runs.ndjson'), `${[...lines, running(...reels)].join('\n')}\n`)
      return plain(run(...words, '--ledger', 'runs.ndjson').out)
    }
    const words = ['check', 'tackle-box.gcode', '--material', 'PLA', '--printer', 'the Gull']
    const mark = 'feeds a print on the Gull, which is not off this yet'
    const one = checked('QX5BN')
    expect(one).toContain('Reel HA83A finishes it; 862 ± 9 g stay on it.')
    expect(one).not.toContain(says('QX5BN'))
    expect(one.indexOf('enough > 99.9 % QX5BN')).toBeGreaterThan(one.indexOf('% HA83A'))
    expect(one.slice(one.indexOf('% QX5BN'), one.indexOf('% REYRT'))).toContain(mark)
    expect(one.slice(one.indexOf('% HA83A'), one.indexOf('% QX5BN'))).not.toContain(mark)
    const both = checked('QX5BN', 'HA83A')
    expect(both).toContain(`Reel QX5BN finishes it; 482 ± 10 g stay on it. ${says('QX5BN')}`)
    expect(both).not.toContain(says('HA83A'))
    const several = run(...words, 'knob.gcode', '--colour', 'white', '--ledger', 'runs.ndjson').out
    expect(plain(several).split(`! ${says('QX5BN')}`)).toHaveLength(2)
    const named = run(
      ...words.slice(0, 2),
      'knob.gcode',
      '--reel',
      'HA83A',
      '--ledger',
      'runs.ndjson',
    )
    expect(plain(named.out).split(`! ${says('HA83A')}`)).toHaveLength(2)
    const without = lines.filter((line) => !/"(?:QX5BN|HA83A)"/.test(line))
    writeFileSync(join(folder, 'runs.ndjson'), `${[...without, running('REYRT')].join('\n')}\n`)
    const close = plain(run(...words, '--ledger', 'runs.ndjson').out)
    expect(close).toContain('No reel is sure to. The likeliest that feeds no print now is FFP4R.')
    const rest = run(...words, '--colour', 'gull grey', '--ledger', 'runs.ndjson').out
    expect(plain(rest)).toContain(`No reel is sure to. The likeliest is REYRT. ${says('REYRT')}`)
  })

  test('leaves other diameters out', () => {
    const { exit, out } = run('check', 'knob.gcode', ...from, '--diameter', '2.85mm')
    expect(exit).toBe(20)
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      '12 reels of another diameter than 2.85 mm left out',
    )
  })

  test('without a ledger both ways are shown, and none is begun', () => {
    const data = join(mkdtempSync(join(tmpdir(), 'reelreckon-')), 'none')
    const env = { REELRECKON_DATA: data }
    const { exit, err } = runCli(['check', 'knob.gcode'], { cwd: folder, env })
    expect(exit).toBe(2)
    expect(err).toMatch(/--gross 422g/)
    expect(err).toMatch(/reel add/)
    expect(() => readdirSync(data)).toThrow(/ENOENT/)
  })

  test('choosing and telling do not go together', () => {
    for (const words of [
      ['--net', '40g', '--colour', 'blue'],
      ['--net', '40g', ...from],
      ['--reel', 'QX5BN', '--all', ...from],
    ]) {
      expect(codeOf(run('check', 'knob.gcode', ...words, '--json'))).toBe('needs_the_shelf')
    }
    expect(codeOf(run('check', '-', '--ledger', '-', '--json'))).toBe('stdin_twice')
    expect(codeOf(run('check', 'knob.gcode', ...from, '--data', '.', '--json'))).toBe(
      'ledger_twice',
    )
  })
})

describe('check --reel', () => {
  test('writes JSON by its schema, with the reel and what it rests on', () => {
    const words = ['check', 'tackle-box.gcode', '--reel', 'qx5bn', '--printer', 'the gull']
    const { exit, out } = run(...words, ...from, '--json')
    const answer = checkJson.parse(JSON.parse(out))
    expect([exit, answer.reel?.id, answer.working?.weighings.length]).toEqual([0, 'QX5BN', 2])
  })

  test('a weighing told now is held against the rest, and not kept', () => {
    const words = ['check', 'tackle-box.gcode', '--reel', 'oilskin', '--gross', '1100g']
    const { exit, out } = run(...words, ...from)
    expect(exit).toBe(10)
    expect(out).toMatch(/g less than\s+expected/)
    expect(out).toContain('reelreckon weigh HA83A 1100g')
  })

  test('a reel told beside one of the shelf, for another tool', () => {
    const tools = ['--tool', 'T0: reel=QX5BN', '--tool', 'T1: net=200g']
    const { exit } = run('check', 'two-tool-part.gcode', ...tools, ...from)
    expect(exit).toBe(0)
  })

  test('what is typed of a printer leaves the rest that is known of it', () => {
    const data = mkdtempSync(join(tmpdir(), 'reelreckon-typed-'))
    const shelf = (...words: readonly string[]): string => {
      const { exit, out, err } = run(...words, '--data', data)
      if (exit !== 0) throw new Error(err)
      return out
    }
    shelf('printer', 'add', 'heavy feeder', '--feed-factor', '1.08±0.005')
    shelf('make', 'add', 'Pelorus PLA', '--maker', 'Pelorus', '--material', 'PLA')
    const opening = ['--gross-new', '1250g', '--label', '1kg', '--at', '2026-11-20']
    const added = shelf('reel', 'add', '--make', 'Pelorus PLA', ...opening, '--json')
    const reel = recordedReel(added)
    shelf('weigh', reel, '250g', '--empty', '--at', '2026-11-20')
    for (const [day, left] of [
      ['21', '930g'],
      ['23', '609g'],
    ] as const) {
      shelf('draw', '--reel', reel, '--length', '100m', '--at', `2026-11-${day}`)
      shelf('weigh', reel, left, '--at', `2026-11-${Number(day) + 1}`)
    }
    const asked = ['check', '--draw', '115m', '--data', data]
    const start = ['--start-allowance', '100mm']
    for (const typed of [['--reel', reel], ['--reel', reel, ...start], start]) {
      expect(run(...asked, ...typed).exit).toBe(20)
    }
    expect(run(...asked, '--reel', reel, '--feed-factor', '1±0.005').exit).toBe(0)
    // Of several printers the one that takes most stands in for the one nobody named, and is told.
    shelf('printer', 'add', 'light feeder', '--feed-factor', '1±0.005')
    expect(run(...asked, '--reel', reel, '--printer', 'light feeder').exit).toBe(0)
    for (const of of [['--reel', reel], []]) {
      const { exit, out } = run(...asked, ...of)
      expect([exit, out.replaceAll(/\s+/g, ' ')]).toEqual([
        20,
        expect.stringContaining('reckoned for heavy feeder, which would take most'),
      ])
    }
    const { printer } = checkJson.parse(JSON.parse(run(...asked, '--reel', reel, '--json').out))
    expect(printer).toEqual({ id: expect.any(String), name: 'heavy feeder', stands_in: true })
    // One that was fed another diameter last does not come into question, however the reel is named.
    const thick = ['--maker', 'Pelorus', '--material', 'PLA', '--diameter', '2.85mm']
    shelf('make', 'add', 'Pelorus Thick', ...thick)
    const other = recordedReel(
      shelf('reel', 'add', '--make', 'Pelorus Thick', '--label', '1kg', '--json'),
    )
    shelf('draw', '--reel', other, '--length', '1m', '--printer', 'heavy feeder')
    for (const named of [
      ['--reel', reel],
      ['--tool', `T0: reel=${reel}`],
    ]) {
      const answer = checkJson.parse(JSON.parse(run(...asked, ...named, '--json').out))
      expect(answer.printer?.name).toBe('light feeder')
    }
  })

  test.each([
    [['--reel', 'QX5BM'], 'id_check'],
    [['--reel', 'tessamund'], 'reel_ambiguous'],
    [['--reel', '2ZYX6'], 'reel_retired'],
    [['--reel', 'QX5BN', '--tare', '250g'], 'known_by_ledger'],
    [['--reel', 'QX5BN', '--scale', 'kitchen scale'], 'scale_without_gross'],
    [['--reel', 'QX5BN', '--printer', 'the Barge'], 'printer_unknown'],
  ])('%s is refused as %s', (words, code) => {
    const answer = run('check', 'knob.gcode', ...words, ...from, '--json')
    expect([answer.exit, codeOf(answer)]).toEqual([2, code])
  })
})

describe('reel list and reel show', () => {
  test('write JSON by their schemas', () => {
    const list = reelListJson.parse(JSON.parse(run('reel', 'list', ...from, '--json').out))
    expect(list.reels).toHaveLength(12)
    const show = run('reel', 'show', 'oilskin', ...from, '--json')
    const { facts } = reelShowJson.parse(JSON.parse(show.out))
    expect(facts.map(({ voided }) => voided !== null)).toEqual([false, true])
  })

  test('a ledger that is spoilt is told by its line', () => {
    const lines = readFileSync(join(folder, 'marrowick.ndjson'), 'utf8').split('\n')
    writeFileSync(join(folder, 'spoilt.ndjson'), lines.with(3, '{"kind":"scale"}').join('\n'))
    const { exit, err } = run('reel', 'list', '--ledger', 'spoilt.ndjson')
    expect([exit, err.startsWith('spoilt.ndjson: line 4: ')]).toEqual([3, true])
  })
})

describe('the ledger is kept and carried', () => {
  const data = ['--data', join(mkdtempSync(join(tmpdir(), 'reelreckon-')), 'data')] as const

  test('there and back, fact by fact', () => {
    const first = run('import', 'marrowick.ndjson', ...data, '--json')
    expect(importJson.parse(JSON.parse(first.out))).toMatchObject({ written: 145, same: 0 })
    const again = run('import', 'marrowick.ndjson', ...data, '--json')
    expect(importJson.parse(JSON.parse(again.out))).toMatchObject({ written: 0, same: 145 })
    const out = run('export', ...data).out
    expect(body(out)).toEqual(body(readFileSync(join(folder, 'marrowick.ndjson'), 'utf8')))
    expect(run('reel', 'list', ...data).out).toBe(run('reel', 'list', ...from).out)
  })

  test.each([
    'reel list',
    'reel show QX5BN',
    'check knob.gcode',
    'match',
    'slate list',
    'printer list',
    'priors list',
    'weigh QX5BN 1250g',
    'draw --length 3m --reel QX5BN',
    'retire QX5BN',
    'printer change left --name right',
    'put-right 4HK-7PQ-2WY --reason x',
    'export',
  ])('%s: a folder without a ledger is named, and none is begun in it', (words) => {
    const none = join(mkdtempSync(join(tmpdir(), 'reelreckon-')), 'none')
    const { exit, out, err } = run(...words.split(' '), '--data', none)
    expect([exit, out]).toEqual([2, ''])
    expect(err.replaceAll(/\s+/g, ' ')).toContain(`There is no ledger in ${none}. Say with --data`)
    expect(err).toContain('reelreckon reel add')
    expect(() => readdirSync(none)).toThrow(/ENOENT/)
  })

  test('a dry run writes nothing and begins nothing', () => {
    const none = join(mkdtempSync(join(tmpdir(), 'reelreckon-')), 'none')
    const { out } = run('import', 'marrowick.ndjson', '--dry-run', '--data', none, '--json')
    expect(importJson.parse(JSON.parse(out))).toMatchObject({ dry_run: true, written: 145 })
    expect(() => readdirSync(none)).toThrow(/ENOENT/)
  })

  test('a fact that names what is nowhere is told by file and line', () => {
    const lines = readFileSync(join(folder, 'marrowick.ndjson'), 'utf8').trim().split('\n')
    const place = lines.findIndex((line) => line.includes('"kind":"scale"'))
    const id = /"id":"([^"]*)"/.exec(lines[place]!)![1]!
    const less = lines.toSpliced(place, 1)
    writeFileSync(join(folder, 'less.ndjson'), `${less.join('\n')}\n`)
    const line = 1 + less.findIndex((each) => each.includes(`"scale":"${id}"`))
    const fresh = ['--data', mkdtempSync(join(tmpdir(), 'reelreckon-less-'))]
    const { exit, err } = run('import', 'less.ndjson', ...fresh)
    expect(exit).toBe(3)
    expect(plain(err)).toMatch(new RegExp(`^less\\.ndjson: line ${line}: The fact `))
    expect(err).toContain(id)
  })

  test('one bad line keeps all of it out, unless it may be left out', () => {
    const fresh = ['--data', join(mkdtempSync(join(tmpdir(), 'reelreckon-')), 'data')] as const
    const text = readFileSync(join(folder, 'marrowick.ndjson'), 'utf8')
    writeFileSync(join(folder, 'one-bad.ndjson'), `${text}{"kind":"weighed"}\n`)
    expect(run('import', 'one-bad.ndjson', ...fresh).exit).toBe(3)
    expect(run('reel', 'list', ...fresh).out).toContain('The shelf is empty')
    const taken = run('import', 'one-bad.ndjson', ...fresh, '--skip-bad', '--json')
    expect(importJson.parse(JSON.parse(taken.out))).toMatchObject({
      written: 145,
      skipped: [{ row: 147 }],
    })
  })

  test('a backup is restored, and what was there is kept', () => {
    const made = run('backup', 'b.sqlite', ...data, '--json')
    expect(keptJson.parse(JSON.parse(made.out))).toMatchObject({ facts: 118, rows: 21 })
    expect(codeOf(run('backup', 'b.sqlite', ...data, '--json'))).toBe('target_exists')
    expect(codeOf(run('restore', 'b.sqlite', ...data, '--json'))).toBe('not_agreed')
    const { kept } = keptJson.parse(
      JSON.parse(run('restore', 'b.sqlite', ...data, '--yes', '--json').out),
    )
    expect(kept).toMatch(/ledger-before-.*\.sqlite$/)
    expect(run('restore', 'knob.gcode', ...data, '--yes').exit).toBe(4)
  })

  test('neither a backup nor an export takes the place of the ledger', () => {
    const facts = run('export', ...data)
      .out.trim()
      .split('\n')
      .slice(1)
    for (const name of ['ledger.sqlite', 'ledger.sqlite-wal', 'ledger.sqlite-journal']) {
      for (const command of ['backup', 'export']) {
        const done = run(command, join(data[1], name), '--overwrite', ...data, '--json')
        expect([done.exit, codeOf(done)]).toEqual([2, 'target_is_ledger'])
      }
    }
    const folderMeant = run('backup', data[1], '--overwrite', ...data, '--json')
    expect([folderMeant.exit, codeOf(folderMeant)]).toEqual([2, 'target_is_folder'])
    expect(
      run('export', ...data)
        .out.trim()
        .split('\n')
        .slice(1),
    ).toEqual(facts)
  })

  test('tables are written whole, and not over others', () => {
    expect(run('export', '--tables', 'tables', ...data).exit).toBe(0)
    expect(readdirSync(join(folder, 'tables')).toSorted()).toEqual(
      [
        'facts',
        'makes',
        'materials',
        'people',
        'printers',
        'prints',
        'reels',
        'running',
        'scales',
        'slate',
      ].map((name) => `${name}.csv`),
    )
    const reels = readFileSync(join(folder, 'tables/reels.csv'), 'utf8')
    expect(reels.trim().split('\n')).toHaveLength(14)
    expect(codeOf(run('export', '--tables', 'tables', ...data, '--json'))).toBe('target_exists')
  })

  test('a table of reels: refused by row and column, then taken, then there', () => {
    sheet('heavy')
    const scale = ['--scale', 'kitchen scale'] as const
    const bad = run('import', 'reels.csv', ...data, ...scale)
    expect([bad.exit, bad.err.replaceAll(/\s+/g, ' ')]).toEqual([
      3,
      expect.stringContaining('Row 3, column "Gross": '),
    ])
    sheet('640')
    const good = run('import', 'reels.csv', ...data, ...scale, '--json')
    const { reels } = importJson.parse(JSON.parse(good.out))
    expect(reels.map(({ what }) => what)).toEqual([
      'Tessamund PLA, pink; pale, label 1000 g, gross 812 g',
      'Tessamund PLA, mauve, label 1000 g, gross 640 g',
    ])
    const again = run('import', 'reels.csv', ...data, ...scale, '--json')
    expect(importJson.parse(JSON.parse(again.out))).toMatchObject({
      written: 0,
      skipped: [{ code: 'there' }, { code: 'there' }],
    })
    expect(codeOf(run('import', 'reels.csv', ...data, '--column', 'mass=Gross', '--json'))).toBe(
      'key_unknown',
    )
    const named = ['--column', 'make=Product', '--alike', '--dry-run'] as const
    const alike = run('import', 'reels.csv', ...data, ...scale, ...named)
    expect(alike.out).toContain('from reels.csv: 2 reels')
    expect(alike.out).toContain('"Gross" is taken for what the scale shows now.')
    expect(alike.out).toMatch(/gross 812 g: would\s+hold\s+\d{3} ± \d+ g\n/)
    const json = importJson.parse(
      JSON.parse(run('import', 'reels.csv', ...data, ...scale, ...named, '--json').out),
    )
    // The first two are on the shelf by then, and teach a little.
    for (const [i, { net_g }] of json.reels.entries()) {
      expect(Math.abs(net_g!.value - reels[i]!.net_g!.value)).toBeLessThan(5)
    }
    const [pink] = reels
    const shown = JSON.parse(run('reel', 'show', pink!.id, ...data, '--json').out)
    expect(reelShowJson.parse(shown).net_g?.value).toBeCloseTo(pink!.net_g!.value, 9)
  })
})
