import { mkdtempSync, readdirSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { reelListJson, rowsJson, slateJson } from '../../src/contract/index.ts'
import { ledgerHeader } from '../../src/ledger/index.ts'
import { writeDocsLedger } from './docs-ledger.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const prints = folderOfPrints()
const data = mkdtempSync(join(tmpdir(), 'reelreckon-slate-'))
await writeDocsLedger(data)

const slate = (...words: readonly string[]) => {
  const { out, err, exit } = runCli(['slate', ...words], {
    cwd: prints,
    env: { REELRECKON_DATA: data },
  })
  return { exit, said: (out + err).replaceAll(/\s+/g, ' '), out }
}

test('a print waits, and is listed with what it wants', () => {
  const wanted = ['--material', 'PLA', '--colour', 'tar black', '--copies', '2']
  const more = ['--due', '2031-12-24', '--takes', '3h 30min', '--change-after', '40-120, 150']
  expect(slate('add', 'tackle-box.gcode', ...wanted, ...more).exit).toBe(0)
  const { said } = slate('list', 'tackle-box')
  expect(said).toContain('tackle-box 2 copies')
  expect(said).toContain('48.63 m of PLA, tar black')
  expect(said).toContain('due 24 Dec 2031, 23:59, takes 3.5 h')
  expect(said).toContain('once in mid-print, after layer 40 to 120, 150')
  const { waiting } = slateJson.parse(JSON.parse(slate('list', '--json').out))
  expect(waiting.find(({ row }) => row.name === 'tackle-box')?.row.changes).toEqual({
    after_layers: [
      [40, 120],
      [150, 150],
    ],
  })
})

test('a row changes, forgets, and goes off', () => {
  expect(slate('change', 'tackle-box', '--copies', '4', '--forget', 'due').exit).toBe(0)
  const { said } = slate('list', 'tackle-box')
  expect(said).toContain('4 copies')
  expect(said).not.toContain('due')
  expect(slate('take-off', 'tackle-box').exit).toBe(0)
  expect(slate('list').said).not.toContain('tackle-box')
  expect(slate('list', '--all').said).toContain('tackle-box taken off')
  expect(slate('put-back', 'tackle-box').exit).toBe(0)
})

test.each([
  [['add'], 'its FILE, or --print'],
  [['add', 'knob.gcode', '--copies', 'many'], 'no whole number'],
  [['add', 'knob.gcode', '--takes', 'long'], 'no time that a print takes'],
  [['add', 'knob.gcode', '--due', 'soon'], 'no moment'],
  [['add', 'knob.gcode', '--change-after', '9-3'], 'no layers'],
  [['add', 'knob.gcode', '--tool', 'PLA'], 'T0: material=PLA'],
  [['add', 'knob.gcode', '--tool', 'T0: material=PLA', '--colour', 'red'], 'one tool'],
  [['change', 'tackle-box', '--forget', 'everything'], 'can not be forgotten'],
  [['change', 'tackle-box'], 'Nothing of tackle-box'],
])('%j is refused', (words, why) => {
  const { exit, said } = slate(...words)
  expect(exit).toBe(2)
  expect(said).toContain(why)
})

test('to look begins no ledger where there is none', () => {
  const empty = mkdtempSync(join(tmpdir(), 'reelreckon-none-'))
  const look = (...words: readonly string[]) =>
    runCli(words, { cwd: prints, env: { REELRECKON_DATA: empty } })
  expect(look('slate', 'list').exit).toBe(0)
  const matched = look('match')
  expect(matched.exit).toBe(2)
  expect(matched.err).toContain('Nothing waits.')
  expect(readdirSync(empty)).toEqual([])
})

test('a print that runs is told, planned around, and ended by its draw', () => {
  const env = { REELRECKON_DATA: data }
  const said = (...words: readonly string[]): string => {
    const { out, err } = runCli(words, { cwd: prints, env })
    return (out + err).replaceAll(/\s+/g, ' ')
  }
  expect(slate('add', 'vase.gcode', '--name', 'tall', '--copies', '2').exit).toBe(0)
  const { waiting } = slateJson.parse(JSON.parse(slate('list', 'tall', '--json').out))
  const json = (...words: readonly string[]): unknown =>
    JSON.parse(runCli([...words, '--json'], { cwd: prints, env }).out)
  const [printer] = rowsJson.parse(json('printer', 'list')).rows
  const [reel] = reelListJson.parse(json('reel', 'list')).reels
  const started = Date.now() - 60_000
  const row = {
    kind: 'running',
    id: '94Y7AQJ6D',
    changed_at: new Date(started).toISOString(),
    print: waiting[0]!.row.print,
    printer: printer!.id,
    started_at: new Date(started).toISOString(),
    recorded_at: new Date(started).toISOString(),
    reels: [{ tool: 0, reel: reel!.reel.id }],
  }
  const lines = [ledgerHeader(started), JSON.stringify(row)].join('\n')
  writeFileSync(join(prints, 'started.ndjson'), lines)
  expect(runCli(['import', 'started.ndjson'], { cwd: prints, env }).exit).toBe(0)

  const runs = `vase.gcode runs on ${'name' in printer! ? printer.name : ''} from ${reel!.reel.id} since `
  expect(slate('list').said).toContain(runs)
  expect(said('match')).toContain(`from ${reel!.reel.id}, runs: what it takes comes off first.`)
  const on = ['--printer', printer!.id, '--reel', reel!.reel.id] as const
  const drawn = said('draw', 'vase.gcode', ...on, '--stopped-at', 'share=1%')
  expect(drawn).toContain('94Y-7AQ-J6D failed')
  expect(slate('list').said).not.toContain(runs)
})
