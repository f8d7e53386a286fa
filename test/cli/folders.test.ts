import { chmodSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { beforeAll, describe, expect, test } from 'vitest'
import { bigPrint } from '../../demo/big-print.ts'
import {
  type CheckJson,
  type ChecksJson,
  checksJson,
  type ReadJson,
  readJson,
} from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const at = (path: string): string => join(folder, path)
const knob = readFileSync(at('knob.gcode'))

beforeAll(() => {
  for (const each of ['bench', 'bench/older', 'bench/.hidden', 'empty', 'deep/in'])
    mkdirSync(at(each), { recursive: true })
  writeFileSync(at('bench/plate 10.gcode'), knob)
  writeFileSync(at('bench/plate 2.gcode'), knob)
  writeFileSync(at('bench/vase.GCODE.gz'), gzipSync(readFileSync(at('vase.gcode'))))
  writeFileSync(
    at('bench/two.zip'),
    zipOf([
      { name: 'a.gcode', bytes: knob },
      { name: 'b.gcode', bytes: readFileSync(at('hinge-pin.gcode')) },
    ]),
  )
  writeFileSync(at('bench/cut.gcode.gz'), gzipSync(knob).subarray(0, 500))
  writeFileSync(at('bench/prose.gcode'), 'Dear diary\n'.repeat(50))
  writeFileSync(at('bench/readme.txt'), 'no print')
  writeFileSync(at('bench/.draft.gcode'), knob)
  writeFileSync(at('bench/older/pin.gcode'), readFileSync(at('hinge-pin.gcode')))
  writeFileSync(at('bench/.hidden/x.gcode'), knob)
  writeFileSync(at('deep/in/x.gcode'), knob)
  symlinkSync('../knob.gcode', at('bench/link.gcode'))
  symlinkSync('nowhere', at('bench/dangling.gcode'))
  symlinkSync('..', at('bench/round'))
})

const severalOf = (
  words: readonly string[],
): { readonly exit: number | null } & Extract<ReadJson, { prints: unknown }> => {
  const { exit, out, err } = runCli(['read', ...words, '--json'], { cwd: folder })
  expect(err).toBe('')
  const answer = readJson.parse(JSON.parse(out))
  if (!('prints' in answer)) throw new Error('no list')
  return { exit, ...answer }
}

const ofBench = [
  ['bench/link.gcode', null],
  ['bench/plate 2.gcode', null],
  ['bench/plate 10.gcode', null],
  ['bench/two.zip', 'a.gcode'],
  ['bench/two.zip', 'b.gcode'],
  ['bench/vase.GCODE.gz', null],
]

describe('read', () => {
  test('a folder: prints of every kind by name; what is hidden, dangling or no print is left out', () => {
    const { exit, prints, errors } = severalOf(['bench'])
    expect(prints.map(({ file, member }) => [file, member])).toEqual(ofBench)
    expect(errors.map(({ file, code }) => [file, code])).toEqual([
      ['bench/cut.gcode.gz', 'container_truncated'],
      ['bench/prose.gcode', 'no_machine_code'],
    ])
    expect(exit).toBe(3)
  })

  test('what is told of each is what is told of it alone', () => {
    const alone = JSON.parse(runCli(['read', 'bench/plate 2.gcode', '--json'], { cwd: folder }).out)
    expect(severalOf(['bench']).prints[1]).toEqual(alone)
  })

  test('the folders in it only when asked for, and links that lead in a circle not at all', () => {
    const { prints } = severalOf(['bench', '--subfolders'])
    expect(prints.map(({ file }) => file)).toEqual([
      ...ofBench.map(([file]) => file),
      'bench/older/pin.gcode',
    ])
  })

  test('files and folders in the order given', () => {
    const { exit, prints } = severalOf(['vase.gcode', 'deep/in', 'knob.gcode'])
    expect(prints.map(({ file }) => file)).toEqual(['vase.gcode', 'deep/in/x.gcode', 'knob.gcode'])
    expect(exit).toBe(0)
  })

  test('large ones, read in threads, come in the order given', () => {
    const names = [3, 1, 2].map((count) => {
      const parts: Uint8Array[] = []
      const chunks = bigPrint(count * 2_000_000, { eMode: 'relative' })
      for (let next = chunks.next(); next.done !== true; next = chunks.next())
        parts.push(next.value)
      const name = `big-${count}.gcode`
      writeFileSync(at(name), Buffer.concat(parts))
      return name
    })
    const { prints, errors } = severalOf([names[0]!, 'bench/prose.gcode', ...names.slice(1)])
    expect(prints.map(({ file }) => file)).toEqual(names)
    expect(errors.map(({ code }) => code)).toEqual(['no_machine_code'])
    for (const print of prints) {
      const alone = JSON.parse(runCli(['read', print.file, '--json'], { cwd: folder }).out)
      expect(print).toEqual(alone)
    }
  })

  test('a table: a line each, the sum, and why a file was not read', () => {
    const { exit, out, err } = runCli(['read', 'bench', '--material', 'PLA'], { cwd: folder })
    expect([exit, err]).toEqual([3, ''])
    expect(out).toContain('6 prints draw')
    expect(out).toContain('2 files could not be read.')
    expect(out).toMatch(/!\s+bench\/cut\.gcode\.gz: The gzip file ends too early/)
    expect(out).toMatch(/bench\/plate 10\.gcode\s+4\.91 m\s+14\.6 ± 0\.4 g\s+60\s+12 mm/)
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
  })

  test('--in-full has the sheet of each', () => {
    const { out } = runCli(['read', 'bench', '--in-full'], { cwd: folder })
    const sheet = runCli(['read', 'bench/plate 2.gcode'], { cwd: folder }).out
    expect(out).toContain(sheet)
    expect(out.match(/sha256/g)).toHaveLength(6)
    expect(out).toContain('cut.gcode.gz: The gzip file ends too early')
  })

  test.each([
    [['empty'], 'no_prints_in_folder', 'No file in this folder ends in'],
    [['deep'], 'no_prints_in_folder', '--subfolders'],
    [['knob.gcode', 'nowhere.gcode'], 'missing_file', 'There is no such file'],
  ] as const)('%j: %s', (words, code, message) => {
    const { exit, errors } = severalOf(words)
    expect(exit).toBe(3)
    expect(errors.map((error) => error.code)).toEqual([code])
    expect(errors[0]?.message).toContain(message)
  })

  test.skipIf(process.getuid?.() === 0)('a folder that may not be looked into', () => {
    mkdirSync(at('closed'), { mode: 0 })
    expect(severalOf(['closed', 'knob.gcode']).errors.map(({ code }) => code)).toEqual([
      'no_permission',
    ])
    chmodSync(at('closed'), 0o700)
  })

  test('--subfolders without a folder is wrong usage', () => {
    const { exit, err } = runCli(['read', 'knob.gcode', '--subfolders'], { cwd: folder })
    expect(exit).toBe(2)
    expect(err).toContain('--subfolders is about a folder')
  })
})

const checksOf = (words: readonly string[]): { readonly exit: number | null } & ChecksJson => {
  const { exit, out, err } = runCli(['check', ...words, '--json'], { cwd: folder })
  expect(err).toBe('')
  return { exit, ...checksJson.parse(JSON.parse(out)) }
}
const marrowick = ['--ledger', 'marrowick.ndjson']
const told = ['--net', '5 ± 0.5 m', '--density', '1.24']
const length = ['--length', '5 ± 0.5 m', '--density', '1.24']

describe('check', () => {
  test('over the shelf: each as by itself, but for the long list of reels', () => {
    const prints = ['knob.gcode', 'two-tool-part.gcode', 'tackle-box.gcode']
    const { exit, verdict, checks } = checksOf([...prints, ...marrowick])
    expect(checks).toHaveLength(3)
    for (const [place, print] of prints.entries()) {
      const { out } = runCli(['check', print, ...marrowick, '--json'], { cwd: folder })
      const alone = JSON.parse(out)
      for (const tool of alone.tools) tool.reels = tool.reels.slice(0, 5)
      expect(checks[place]).toEqual(alone)
    }
    expect([exit, verdict]).toEqual([0, 'enough'])
  })

  test('of a reel told here, each as by itself, and the worst decides', () => {
    const prints = ['hinge-pin.gcode', 'knob.gcode', 'vase.gcode']
    const { exit, verdict, checks } = checksOf([...prints, ...length])
    expect(checks.map((check) => check.verdict)).toEqual(['enough', 'close', 'short'])
    expect([exit, verdict]).toEqual([20, 'short'])
    for (const [place, print] of prints.entries()) {
      const { out } = runCli(['check', print, ...length, '--json'], { cwd: folder })
      expect(checks[place]).toEqual(JSON.parse(out))
    }
  })

  test('one that can not be read, or that the reel told does not suit, makes it 3', () => {
    const { exit, verdict, checks, errors } = checksOf([
      'vase.gcode',
      'bench/prose.gcode',
      'two-tool-part.gcode',
      ...length,
    ])
    expect([exit, verdict, checks.length]).toEqual([3, 'short', 1])
    expect(errors.map(({ file, code }) => [file, code])).toEqual([
      ['bench/prose.gcode', 'no_machine_code'],
      ['two-tool-part.gcode', 'tool_without_reel'],
    ])
  })

  test('every print of a zip is judged', () => {
    const { checks } = checksOf(['bench', ...marrowick])
    expect(checks.map(({ print }) => [print?.file, print?.member])).toEqual(ofBench)
  })

  test('in turn from one reel they are judged together as well', () => {
    const words = [
      'check',
      'knob.gcode',
      'hinge-pin.gcode',
      'vase.gcode',
      '--in-turn',
      '--start',
      '21:30',
    ]
    const apart = ['--net', '58g±1g', '--linear-density', '2.98g/m']
    const { out, exit } = runCli([...words, ...apart, '--json'], { cwd: folder })
    const { checks, together, verdict } = checksJson.parse(JSON.parse(out))
    expect(checks.map((one) => one.verdict)).toEqual(['enough', 'enough', 'enough'])
    expect([together?.verdict, verdict, exit]).toEqual(['short', 'short', 20])
    // 4.91 m, 1.07 m and 17.49 m, each with what is used before it.
    expect(together!.needed_mm.value / 1000).toBeGreaterThan(23.47)
    const table = runCli([...words, ...apart], { cwd: folder }).out.replaceAll(/\s+/g, ' ')
    expect(table).toContain('Together, from the same reel: SHORT')
    expect(table).toMatch(/23\.\d+ m asked for, [\d.]+ ± [\d.]+ g are lacking/)
  })

  test('a table with verdict, chance, need and reel', () => {
    const { out } = runCli(['check', 'bench', ...marrowick, '--make', 'Ostrelle'], { cwd: folder })
    expect(out).toMatch(/enough\s+99\.4 %\s+bench\/plate 2\.gcode\s+4\.91 m\s+\w{5}\s+\d+ ± /)
    expect(out).toContain('6 prints, each judged by itself as if it were the next one')
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
  })

  test('when each ends and runs dry, by itself or one after another', () => {
    const prints = ['hinge-pin.gcode', 'knob.gcode', 'vase.gcode']
    const start = ['--start', '2026-03-01T21:30:00Z']
    const begun = Date.parse('2026-03-01T21:30:00Z')
    const apart = checksOf([...prints, ...length, ...start]).checks
    for (const { time } of apart) expect(time!.start_at).toBe('2026-03-01T21:30:00.000Z')
    const { checks } = checksOf([...prints, ...length, ...start, '--in-turn'])
    let free = begun
    let doubt = 0
    for (const [place, { time }] of checks.entries()) {
      const { takes, start_at } = time!
      // What it takes by itself is the same; each begins when the one before is off the printer.
      expect(takes.likely_s).toBe(apart[place]!.time!.takes.likely_s)
      expect(Math.abs(Date.parse(start_at!) - free)).toBeLessThan(2000)
      const spread = Date.parse(takes.late_at!) - Date.parse(takes.early_at!)
      expect(spread).toBeGreaterThan(doubt)
      doubt = spread
      free = Date.parse(takes.likely_at!) + 600_000
    }
    // Nobody knows when a file that can not be read is done.
    const gap = ['hinge-pin.gcode', 'bench/prose.gcode', 'knob.gcode']
    const holed = checksOf([...gap, ...length, ...start, '--in-turn']).checks
    expect(holed.map(({ time }) => time!.start_at)).toEqual([apart[0]!.time!.start_at, undefined])
    const table = runCli(['check', ...gap, ...length, ...start, '--in-turn'], { cwd: folder }).out
    expect(table.replaceAll(/\s+/g, ' ')).toContain('How long bench/prose.gcode takes is not known')
    // Nor when one that may not be whole would be.
    const whole = readFileSync(at('vase.gcode'), 'utf8')
    writeFileSync(at('cut.gcode'), whole.slice(0, whole.length / 2))
    const cut = ['hinge-pin.gcode', 'cut.gcode', 'knob.gcode']
    const halved = checksOf([...cut, ...length, ...start, '--in-turn']).checks
    expect(halved.map(({ time }) => time!.start_at === undefined)).toEqual([false, false, true])
    rmSync(at('cut.gcode'))

    const last = checks[2] as CheckJson
    expect(Date.parse(last.run_dry.clock!.early_at!)).toBeGreaterThan(
      Date.parse(last.time!.start_at!),
    )

    const sheet = runCli(['check', ...prints, ...length], { cwd: folder }).out
    expect(sheet).toMatch(/takes about \d+ min \(\d+ min to \d+ min\)/)
    expect(sheet.replaceAll(/\s+/g, ' ')).toMatch(/it runs dry about .* after the start/)
    const refused = [
      [...prints, '--in-turn'],
      ['knob.gcode', '--in-turn', '--start', 'now'],
    ]
    for (const words of refused) {
      const { exit, err } = runCli(['check', ...words, ...length], { cwd: folder })
      expect([exit, err.includes('--in-turn')]).toEqual([2, true])
    }
  })

  test.each([['--member', 'a.gcode'], ['--stretch', '1'], ['--all']])(
    '%s is for one print',
    (...option) => {
      const { exit, err } = runCli(['check', 'bench', ...marrowick, ...option], { cwd: folder })
      expect(exit).toBe(2)
      expect(err).toContain('is for one print')
    },
  )

  test('what is typed wrong of the reel is told once, before anything', () => {
    const { exit, err, out } = runCli(['check', 'bench', '--gross', 'lots'], { cwd: folder })
    expect([exit, out]).toEqual([2, ''])
    expect(err).toContain('--gross')
  })
})

test('colours stand beside words only', () => {
  expect(runCli(['check', 'bench', ...told], { cwd: folder }).out).not.toContain('\u001B')
})
