import { existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import {
  errorJson,
  makeFactsJson,
  priorsJson,
  recordedJson,
  rowsJson,
  showId,
} from '../../src/contract/index.ts'
import { writeDocsLedger } from './docs-ledger.ts'
import { type CliRun, folderOfPrints, runCli } from './run-cli.ts'

const prints = folderOfPrints()

/** A ledger with two reels of its own, and what runs on it. */
const bench = async (): Promise<(...words: readonly string[]) => CliRun> => {
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-record-'))
  await writeDocsLedger(data)
  return (...words) => runCli(words, { cwd: prints, env: { REELRECKON_DATA: data } })
}

const recorded = ({ out }: CliRun): ReturnType<typeof recordedJson.parse> =>
  recordedJson.parse(JSON.parse(out))

describe('from an empty folder', () => {
  const data = join(mkdtempSync(join(tmpdir(), 'reelreckon-record-')), 'new', 'ledger')
  const run = (...words: readonly string[]): CliRun => runCli([...words, '--data', data])

  test('a reel arrives, is weighed, fed from, and put right', () => {
    const added = run(
      'reel',
      'add',
      '--make',
      'Kittiwake PLA',
      '--maker',
      'Kittiwake',
      '--material',
      'PLA',
      '--label',
      '1kg',
      '--json',
    )
    expect(added.exit).toBe(0)
    const id = recorded(added).reels[0]!.reel
    expect(existsSync(join(data, 'ledger.sqlite'))).toBe(true)

    const first = run('weigh', id.toLowerCase(), '1262g')
    expect([first.exit, first.err]).toEqual([0, ''])
    expect(first.out).toContain('unchecked kitchen scale')

    const none = run('draw', '--length', '50m', '--reel', id)
    expect([none.exit, none.out]).toEqual([2, ''])
    expect(none.err).toContain('reelreckon printer add')
    expect(run('printer', 'add', 'left printer').exit).toBe(0)
    const drew = recorded(run('draw', '--length', '50m', '--reel', id, '--json'))
    expect(drew.facts[0]).toMatchObject({ kind: 'drew', length_mm: 50_000 })

    const right = run(
      'put-right',
      drew.facts[0]!.id,
      '--reason',
      'it was 40 m',
      '--length',
      '40m',
      '--json',
    )
    const { now } = recorded(right).reels[0]!
    // 10 m more than before at about 2.98 g/m.
    expect(now!.net_g.value - drew.reels[0]!.now!.net_g.value).toBeCloseTo(29.8, 0)
  })
})

test('what stood beside a reel on the scale is put right, and so is that nothing did', async () => {
  const run = await bench()
  const right = (fact: string, ...told: readonly string[]): object => {
    const words = ['--reason', 'its holder', ...told, '--accept', '--json']
    return recorded(run('put-right', fact, ...words)).facts.find(({ kind }) => kind === 'weighed')!
  }
  const one = right('4HK-7PQ-2WY', '--extra', '38 ± 1 g')
  const weighing = { reading_g: 1262, extra_g: { value: 38, u: 1 } }
  expect(one).toMatchObject({ weighing })
  const other = right((one as { id: string }).id, '--extra', '0g')
  expect(other).toHaveProperty('weighing', { scale: 'VTK5J', reading_g: 1262 })
})

test('what was told of a make alone is shown with its id, and put right by that', async () => {
  const run = await bench()
  expect(run('make', 'show', 'PLA').out).toContain('Nothing was told of it alone')
  const told = run('weigh', '--make', 'PLA', '--empty', '251g', '--accept', '--json')
  const [fact] = recorded(told).facts
  expect(run('put-right', fact!.id, '--reason', 'misread', '--mass', '252g').exit).toBe(0)
  const shown = makeFactsJson.parse(JSON.parse(run('make', 'show', 'PLA', '--json').out))
  expect(shown).toMatchObject({ make: 'HNUSM', name: 'Kittiwake PLA' })
  expect(shown.facts).toMatchObject([
    { id: fact!.id, voided: { reason: 'misread' } },
    { kind: 'carrier-weighed', voided: null },
  ])
  const { out } = run('make', 'show', 'kittiwake pla')
  expect(out).toContain(`×${showId(fact!.id)}  its empty carrier (Kittiwake PLA)`)
  expect(out).toMatch(/does not hold:\s+misread/)
  for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
})

describe('a surprising weighing in a pipe', () => {
  test('is not recorded, leaves 10, and says how to go on', async () => {
    const run = await bench()
    const { exit, out, err } = run('weigh', 'K7RMY', '1345g')
    expect([exit, err]).toEqual([10, ''])
    // What it takes up from the air since February is reckoned with.
    expect(out).toMatch(/(?:79|8[0-4])(?:\.\d)? g more than expected/)
    expect(out).toContain('something else stood on the scale')
    expect(out).toContain('reelreckon weigh K7RMY 1345g --accept')
    const again = recorded(run('weigh', 'K7RMY', '1345g', '--json'))
    expect(again).toMatchObject({ recorded: false, facts: [], reels: [] })
    expect(again.surprise?.causes[0]?.code).toBe('adapter_left_on')
    const accepted = recorded(run('weigh', 'K7RMY', '1345g', '--accept', '--json'))
    expect(accepted.recorded).toBe(true)
    expect(accepted.facts[0]).toHaveProperty('accepted_off')
    // What was said beside is not lost where it is repeated.
    const more = ['--extra', '2g', '--note', "the lid's on", '--at', '2026-03-01']
    expect(run('weigh', 'K7RMY', '1445g', ...more).out.replaceAll(/\s+/g, ' ')).toContain(
      `reelreckon weigh K7RMY 1445g --extra 2g --note 'the lid'\\''s on' --at 2026-03-01 --accept`,
    )
  })

  test('names an earlier weighing without which it would not surprise', () => {
    const data = join(mkdtempSync(join(tmpdir(), 'reelreckon-record-')), 'ledger')
    const run = (...words: readonly string[]): CliRun => runCli([...words, '--data', data])
    const make = ['--make', 'Kittiwake PLA', '--maker', 'Kittiwake', '--material', 'PLA']
    const added = recorded(run('reel', 'add', ...make, '--label', '1kg', '--json'))
    const id = added.reels[0]!.reel
    // 120 g too much on a carrier known to 60 g.
    const slip = recorded(run('weigh', id, '1382g', '--json')).facts[0]!.id
    const { exit, out } = run('weigh', id, '1262g')
    expect(exit).toBe(10)
    const text = out.replaceAll(/\s+/g, ' ')
    expect(text).toContain('1382 g')
    expect(text).toContain('may be the wrong one: without it this one would not surprise')
    expect(recorded(run('weigh', id, '1262g', '--json')).contradicted).toMatchObject([
      { reel: id, fact: slip, reading_g: 1382 },
    ])
  })

  test('so is what no such filament can weigh', async () => {
    const run = await bench()
    expect(run('measure', 'K7RMY', '--linear-density', '2.98 ± 0.01').exit).toBe(0)
    const words = ['measure', 'K7RMY', '--linear-density', '5 ± 0.01']
    const { exit, err } = run(...words)
    expect(exit).toBe(10)
    expect(err.replaceAll(/\s+/g, ' ')).toContain('Repeat with --accept then.')
    const accepted = recorded(run(...words, '--accept', '--json'))
    const id = showId(accepted.facts[0]!.id)
    expect(run('reel', 'show', 'K7RMY').out.replaceAll(/\s+/g, ' ')).toContain(
      `It is the fact ${id} (reelreckon put-right ${id}).`,
    )
  })

  test('so is a full reel that ran dry', async () => {
    const run = await bench()
    const { exit, out } = run('run-dry', 'K7RMY', '--json')
    expect(exit).toBe(10)
    expect(errorJson.parse(JSON.parse(out)).error.code).toBe('run_dry_surprising')
    expect(run('run-dry', 'K7RMY', '--accept').exit).toBe(0)
  })
})

describe('a reel that arrives with too little for a new one', () => {
  const add = ['reel', 'add', '--make', 'Kittiwake PLA', '--label', '1kg', '--gross', '422g']
  test('may be part-used: that leads, and nothing is to be drawn from it', async () => {
    const run = await bench()
    const { exit, out } = run(...add)
    expect(exit).toBe(10)
    expect(out).toContain('--part-used')
    expect(out).not.toContain('a print was not recorded')
    const causes = out.indexOf('What may explain it')
    if (causes >= 0) expect(out.indexOf('--part-used')).toBeLessThan(causes)
    expect(run(...add, '--part-used').exit).toBe(0)
  })
})

describe('more than a reel can hold', () => {
  test('is not recorded, drawn or trimmed, unless it is accepted', async () => {
    const run = await bench()
    for (const typed of [
      ['draw', '--length', '500m', '--reel', 'K7RMY'],
      ['trim', 'K7RMY', '1.5kg'],
    ]) {
      const { exit, out } = run(...typed, '--json')
      expect(exit).toBe(10)
      expect(errorJson.parse(JSON.parse(out)).error.code).toBe('drew_more_than_held')
    }
    expect(run('draw', '--length', '500m', '--reel', 'K7RMY', '--accept').exit).toBe(0)
  })
})

describe('what is recorded', () => {
  test('a print that stopped, with what it fed', async () => {
    const run = await bench()
    const { facts, reels } = recorded(
      run('draw', 'tackle-box.gcode', '--reel', 'K7RMY', '--stopped-at', 'share=40%', '--json'),
    )
    expect(facts[0]).toMatchObject({ kind: 'drew', tool: 0, stopped_at: { share: 0.4 } })
    const [{ before, now } = {}] = reels
    // 40 % of 48.6 m, and 50 mm before it.
    expect(before!.net_g.value - now!.net_g.value).toBeCloseTo(0.4 * 48.63 * 2.98, 0)
  })

  test('a print in which the reel ran dry asks where', async () => {
    const run = await bench()
    const words = ['draw', 'tackle-box.gcode', '--reel', 'K7RMY', '--ran-dry', '--accept']
    const { exit, err } = run(...words)
    expect(exit).toBe(2)
    expect(err.replaceAll(/\s+/g, ' ')).toContain('Say it with --stopped-at')
    expect(run(...words, '--stopped-at', 'layer=120').exit).toBe(0)
  })

  test('when, who and a note stand in the fact', async () => {
    const run = await bench()
    const { facts } = recorded(
      run(
        'trim',
        'K7RMY',
        '4m',
        '--at',
        '2026-03-01T18:30:00Z',
        '--by',
        'maud',
        '--note',
        'kinked',
        '--json',
      ),
    )
    expect(facts[0]).toMatchObject({ at: '2026-03-01T18:30:00.000Z', by: 'XJYBF', note: 'kinked' })
  })

  test('every reel of a sheet, and every list, is as the schemas have it', async () => {
    const run = await bench()
    const sheet = run('measure', '--make', 'PLA', '--tare', '250 ± 5 g', '--source', 's', '--json')
    expect(recorded(sheet).reels.map(({ reel }) => reel)).toEqual(['K7RMY', 'P3QX6'])
    for (const kind of ['make', 'printer', 'scale', 'person', 'material']) {
      rowsJson.parse(JSON.parse(run(kind, 'list', '--json').out))
    }
    const { priors } = priorsJson.parse(JSON.parse(run('priors', 'list', '--json').out))
    expect(priors.length).toBeGreaterThan(20)
    const factorOf = (key: string) => priors.find((each) => each.key === key)?.learnt_factor
    expect(factorOf('carrierOfOneMake')).toBeGreaterThan(0)
    expect(factorOf('dryAir')).toBeNull()
  })

  test('no figure of a printer loses its unit in the list, whatever is told of it', async () => {
    const run = await bench()
    const name = 'the printer under the window'
    const told = ['--firmware', 'community-1', '--feed-factor', '1.004±0.006', '--tail', '0.5m']
    run('printer', 'add', name, ...told, '--start-allowance', '40mm', '--change', '200±60mm')
    const { out } = run('printer', 'list')
    expect(out.replaceAll(/\s+/g, ' ')).toContain(
      `${name} firmware community-1, feed factor 1.004 ± 0.006, start 40.00 ± 0.29 mm, tail 500 ± 29 mm, change 200 ± 60 mm`,
    )
    expect(out).not.toContain('…')
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
    expect(out).toContain('nothing told: what is usual is taken')
  })

  test('a figure may have a blank before its unit, and several units', async () => {
    const run = await bench()
    const facts = (...words: readonly string[]) => recorded(run(...words, '--json')).facts
    const reading = facts('weigh', 'K7RMY', '1262', 'g')[0]
    expect(reading).toMatchObject({ kind: 'weighed', weighing: { reading_g: 1262 } })
    const empty = facts('weigh', '--make', 'Kittiwake PLA', '--empty', '8', 'oz')[0]
    expect(empty).toMatchObject({ kind: 'carrier-weighed', make: expect.any(String) })
    const [cut] = facts('trim', 'K7RMY', '4', '±', '1', 'm')
    expect(cut).toMatchObject({ kind: 'trimmed', length_mm: { value: 4000, u: 1000 } })
    const { out } = run('weigh', 'K7RMY', '1345', 'g')
    expect(out).toContain("weigh K7RMY '1345 g'")
    expect(run('priors', 'set', 'unknownTare.1000', '243', '±', '8', 'g').exit).toBe(0)
  })

  test('drying tells its cautions each time', async () => {
    const run = await bench()
    const { out } = run('dry', 'K7RMY', '--hours', '6')
    expect(out).toContain('hot enough to burn')
    expect(out).toContain('Weigh it when it has cooled')
  })
})

describe.each([
  [['reel', 'add', '--make', 'Kittiwake PLA', '--colour', 'tar black', '--price', '21.90 EUR']],
  [['reel', 'add', '--make', 'PLA', '--part-used', '--gross', '422g']],
  [['weigh', 'K7RMY', '1262g']],
  [['weigh', 'K7RMY', '1345g']],
  [['draw', 'two-tool-part.gcode', '--tool', 'T0: reel=K7RMY', '--tool', 'T1: reel=P3QX6']],
  [['dry', 'K7RMY', '--hours', '6', '--temperature', '45C']],
  [['put-right', '4HK-7PQ-2WY', '--reason', 'misread', '--mass', '1263g']],
  [['make', 'list']],
  [['priors', 'list']],
])('the sheet of %j', (words) => {
  test('fits 80 columns, and is ASCII where the locale is plain', async () => {
    const run = await bench()
    const { out, err } = run(...words)
    expect(err).toBe('')
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80)
    const data = mkdtempSync(join(tmpdir(), 'reelreckon-record-'))
    await writeDocsLedger(data)
    const env = { REELRECKON_DATA: data, LC_ALL: 'C' }
    const plain = runCli(words, { cwd: prints, env }).out
    expect(plain).toMatch(/^[\n -~]*$/)
    expect(plain).not.toContain('?')
  })
})

/** Words after the program, the code of the refusal, and what its sentence must say. */
const wrong: readonly (readonly [words: readonly string[], code: string, says: RegExp])[] = [
  [['weigh', 'K7RM4', '9g'], 'id_check', /slip in it/],
  [['weigh', 'K7RMY'], 'nothing_weighed', /weigh K7RMY/],
  [['weigh', 'K7RMY', '9g', '8g'], 'unit_not_taken', /for example 422 g/],
  [['weigh', 'K7RMY', '12', 'stone'], 'unit_not_taken', /"stone" is not a unit of mass/],
  [['weigh', '--make', 'PLA', '251g'], 'make_not_weighed', /--empty/],
  [['weigh', 'PLA', '9g'], 'reel_by_words', /K7RMY {2}Kittiwake PLA/],
  [['weigh', 'K7RMY', '1262g', '--at', '2999-01-01'], 'moment_in_future', /still to come/],
  [['weigh', 'K7RMY', '1262g', '--by', 'Nobody'], 'person_unknown', /^--by: .*Maud/s],
  [['weigh', 'K7RMY', '1262g', '--scale', 'attic'], 'scale_unknown', /kitchen scale/],
  [['weigh', 'K7RMY', '1262g', '--ledger', 'x'], 'unknown_option', /--ledger/],
  [['reel', 'add'], 'make_needed', /--make/],
  [['reel', 'add', '--make', 'PETG'], 'make_unknown', /--maker NAME/],
  [['reel', 'add', '--make', 'PLA', '--price', '21.90'], 'price_malformed', /21.90 EUR/],
  [['reel', 'add', '--make', 'PLA', '--srgb', '#fff'], 'colour_needed', /--colour/],
  [['reel', 'add', '--make', 'PLA', '--extra', '3g'], 'extra_without_gross', /--gross/],
  [['reel', 'add', '--make', 'PLA', '--count', 'some'], 'count_malformed', /no count/],
  [['draw', '--reel', 'K7RMY'], 'nothing_drawn', /FILE/],
  [['draw', 'knob.gcode', '--length', '3m', '--reel', 'K7RMY'], 'too_much_drawn', /one of them/],
  [['draw', 'knob.gcode'], 'tool_without_reel', /--reel ID/],
  [['draw', 'missing.gcode', '--reel', 'K7RMY'], 'missing_file', /no such file/],
  [['draw', 'two-tool-part.gcode', '--reel', 'K7RMY'], 'tool_without_reel', /'T1: reel=ID'/],
  [['draw', 'knob.gcode', '--tool', 'T0'], 'tool_malformed', /T0: reel=/],
  [
    ['draw', 'knob.gcode', '--reel', 'K7RMY', '--stopped-at', 'layer=9999'],
    'beyond_print',
    /no layer/,
  ],
  [['draw', '--length', '3m', '--reel', 'K7RMY', '--e-unit', 'mm'], 'needs_a_file', /--e-unit/],
  [['draw', '--print', 'abcd', '--reel', 'K7RMY'], 'print_unknown', /was kept/],
  [['measure', 'K7RMY'], 'nothing_measured', /--calipers/],
  [['measure'], 'reel_or_make', /--make/],
  [['measure', 'K7RMY', '--air', '2.3g'], 'immersion_incomplete', /--water/],
  [['measure', 'K7RMY', '--air', '2.3g', '--water', '2.4g'], 'not_lighter_in_water', /exchanged/],
  [['measure', 'K7RMY', '--tare', '250g'], 'of_a_make', /--empty/],
  [['measure', '--make', 'PLA', '--density', '1.24'], 'source_needed', /--source/],
  [['trim', 'K7RMY', '12'], 'unit_missing', /12g or 4m/],
  [['trim', 'K7RMY', '12 stone'], 'amount_malformed', /neither/],
  [['move', 'K7RMY', 'box', '--air', 'damp'], 'air_unknown', /room nor dry/],
  [['dry', 'K7RMY', '--hours', 'long'], 'hours_malformed', /no time/],
  [['dry', 'K7RMY', '--temperature', '450C'], 'temperature_out_of_range', /--temperature: 450C/],
  [
    ['put-right', 'B7K-2MM-Q9P', '--reason', 'x', '--part-used', 'maybe'],
    'part_used_unknown',
    /yes nor no/,
  ],
  [['put-right', '4HK-7PQ-2WY'], 'reason_needed', /--reason/],
  [['put-right', '4HK-7PQ-2WZ', '--reason', 'x'], 'id_check', /slip/],
  [
    ['put-right', 'B7K-2MM-Q9P', '--reason', 'x'],
    'opened_needed',
    /1 more fact that hangs on its opening/,
  ],
  [['make', 'add', 'ABS'], 'maker_needed', /--maker/],
  [['printer', 'add', 'LEFT printer'], 'name_taken', /already/],
  [['printer', 'add', 'right', '--tail', '1'], 'unit_missing', /^--tail.*500mm or 0\.5m/],
  [['printer', 'change', 'left printer', '--tail', '400m'], 'length_too_large', /Check the unit/],
  [['printer', 'change', 'left printer', '--change', '200'], 'unit_missing', /^--change/],
  [['run-dry', 'K7RMY', '--tail', '1'], 'unit_missing', /^--tail/],
  [['run-dry', 'K7RMY', '--tail', '400m', '--accept'], 'length_too_large', /more than 20 m/],
  [['put-right', '4HK-7PQ-2WY', '--reason', 'x', '--length', '12'], 'unit_missing', /^--length/],
  [['material', 'add', 'PETG'], 'material_built_in', /built-in/],
  [['priors', 'set', 'tares', '3'], 'prior_unknown', /feedFactor/],
  [['priors', 'set', 'feedFactor', '1'], 'prior_malformed', /1.005 ± 0.015/],
]

describe('wrong usage', async () => {
  const run = await bench()

  test.each(wrong)('%j', (words, code, says) => {
    const { exit, out } = run(...words, '--json')
    const { error } = errorJson.parse(JSON.parse(out))
    expect(error.code).toBe(code)
    expect(error.message).toMatch(says)
    expect(exit).toBe(code === 'missing_file' ? 3 : 2)
  })

  test('leaves the ledger as it was', () => {
    const { facts } = recorded(run('move', 'K7RMY', 'shelf', '--json'))
    expect(facts).toHaveLength(1)
    expect(run('put-right', '4HK-7PQ-2WY', '--reason', 'only fact').exit).toBe(0)
  })
})

test('a ledger that is none leaves 4, and is not touched', () => {
  const data = mkdtempSync(join(tmpdir(), 'reelreckon-record-'))
  const file = join(data, 'ledger.sqlite')
  writeFileSync(file, 'not a ledger at all')
  const { exit, out, err } = runCli(['weigh', 'K7RMY', '9g', '--data', data])
  expect([exit, out]).toEqual([4, ''])
  expect(err).not.toContain('reelreckon --help')
  const { error } = errorJson.parse(
    JSON.parse(runCli(['weigh', 'K7RMY', '9g', '--data', data, '--json']).out),
  )
  expect(error.code).toBe('not_a_ledger')
  expect(readFileSync(file, 'utf8')).toBe('not a ledger at all')
})

test('what is typed wrong makes no folder', () => {
  const data = join(mkdtempSync(join(tmpdir(), 'reelreckon-record-')), 'none')
  expect(runCli(['weigh', 'K7RMY', '9g', '--at', 'soon', '--data', data]).exit).toBe(2)
  expect(existsSync(data)).toBe(false)
})

test('a file that leaves open what it draws is recorded once that is answered', async () => {
  const run = await bench()
  const whole = readFileSync(join(prints, 'tackle-box.gcode'))
  writeFileSync(
    join(prints, 'half.gcode'),
    whole.subarray(0, whole.indexOf(' E', whole.length / 2) + 5),
  )
  const reels = ['--reel', 'K7RMY']
  for (const words of [
    ['draw', 'half.gcode', ...reels],
    ['slate', 'add', 'half.gcode', '--material', 'PLA'],
  ]) {
    const asked = run(...words, '--json')
    expect(asked.exit).toBe(10)
    expect(errorJson.parse(JSON.parse(asked.out)).error.code).toBe('maybe_cut_short')
    expect(run(...words, '--accept').exit).toBe(0)
  }
})
