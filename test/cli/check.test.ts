import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { checkArguments } from '../../demo/known-options.ts'
import { situations } from '../../demo/situations.ts'
import { type CheckJson, checkJson } from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { folderOfPrints, runCli } from './run-cli.ts'

const folder = folderOfPrints()
const exits = { enough: 0, close: 10, short: 20 } as const

const check = (...words: readonly string[]): CheckJson => {
  const { exit, out, err } = runCli(['check', ...words, '--json'], { cwd: folder })
  expect(err).toBe('')
  const answer = checkJson.parse(JSON.parse(out))
  expect(exit).toBe(exits[answer.verdict])
  return answer
}

const draw62 = ['--draw', '62m', '--density', '1.24', '--diameter', '1.75mm']

const netOf = (...words: readonly string[]): number => check(...draw62, ...words).net_g.value
const perMetreOf = (...words: readonly string[]): CheckJson['linear_density_g_per_m'] =>
  check('--draw', '62m', '--net', '172g', ...words).linear_density_g_per_m
const withScale = (scale: string): number =>
  check(...draw62, '--gross', '422g', '--tare', '250g', '--scale', scale).net_g.u

describe('the examples that started it', () => {
  test('62 m of 1.75 mm at 1.24 g/cm³ is 184.9 g', () => {
    const printer = ['--feed-factor', '1±0', '--start-allowance', '0', '--tail', '0']
    const answer = check(...draw62, '--gross', '422g', '--tare', '250g', ...printer)
    expect(answer.needed_g.value).toBeCloseTo(184.9, 1)
    expect(answer.needed_mm).toEqual({ value: 62_000, u: 0 })
  })

  test('422 g on a carrier of 250 g is short of it', () => {
    const answer = check(...draw62, '--gross', '422g', '--tare', '250g')
    expect(answer.verdict).toBe('short')
    expect(answer.net_g.value).toBeCloseTo(172, 4)
    expect(answer.run_dry.likely?.share).toBeGreaterThan(0.85)
    expect(answer.run_dry.likely?.layer).toBeNull()
    expect(answer.next).toEqual([])
    expect(answer.print).toBeNull()
  })

  test('on a carrier only guessed it is close, and a carrier should be weighed', () => {
    const answer = check(...draw62, '--gross', '422g')
    expect(answer.verdict).toBe('close')
    expect(answer.next[0]?.id).toBe('weigh_empty_carrier')
    expect(answer.assumed.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['tare', 'feed_factor', 'start_allowance', 'tail']),
    )
  })

  test('gross when new less the label is no better than the overfill', () => {
    const answer = check(...draw62, '--gross', '422g', '--gross-new', '1250g', '--label', '1kg')
    expect(answer.tare_g.u).toBeGreaterThan(12)
    expect(answer.net_g.u).toBeGreaterThan(12)
  })

  test('185 g at nominal figures is that length', () => {
    const answer = check('--mass', '185g', '--density', '1.24', '--gross', '422g', '--tare', '250g')
    expect(answer.needed_mm.value).toBeCloseTo((185 / 1.24 / ((Math.PI / 4) * 1.75 ** 2)) * 1000, 6)
  })
})

describe.each(situations)('$name', ({ print, reels, meant }) => {
  test(`is ${meant}, as the story means it`, () => {
    const tools = print.truth.tools.map(({ tool }) => tool)
    const answer = check(print.fileName, ...checkArguments(tools, reels))
    expect(answer.verdict).toBe(meant)
    expect(answer.tools.map(({ tool }) => tool)).toEqual(tools)
    expect(answer.chance).toBeGreaterThanOrEqual(0)
    expect(answer.tool).toBe(answer.tools.toSorted((a, b) => a.chance - b.chance)[0]?.tool)
    if (meant === 'short') expect(answer.change_before?.layer).toBeGreaterThan(0)
  })
})

describe('what is known of a reel', () => {
  test.each([
    ['--net', '172g', 172],
    ['--net', '0.172 kg', 172],
    ['--net', '172,5 ± 2 g', 172.5],
    // Half an ounce to either side, and a carrier only guessed: not below 0 adds a little.
    ['--gross', '15.00 oz', 425.62 - 250],
    ['--length', '60m', 178.95],
  ])('%s %s', (option, value, expected) => {
    expect(netOf(option, value)).toBeCloseTo(expected, 1)
  })

  test('what else was on the scale is taken off', () => {
    expect(netOf('--gross', '500g', '--extra', '78g', '--tare', '250g')).toBeCloseTo(172, 4)
  })

  test('a carrier of the same make is known less well than its own', () => {
    const own = check(...draw62, '--gross', '422g', '--tare', '250g').net_g.u
    const make = check(...draw62, '--gross', '422g', '--tare-of-make', '250g').net_g.u
    expect(make).toBeGreaterThan(own + 2)
  })

  test('a kind of carrier', () => {
    expect(check(...draw62, '--gross', '422g', '--carrier', 'Cardboard').tare_g.value).toBeCloseTo(
      165,
      1,
    )
  })

  test('a new reel', () => {
    const answer = check(...draw62, '--new', '--label', '1kg')
    expect(answer.verdict).toBe('enough')
    expect(answer.net_g.value).toBeCloseTo(1005, 2)
  })

  test('a winding, with a ruler’s doubt where none is typed', () => {
    const answer = check(...draw62, '--winding', 'hub=80mm, outer=100mm; width=60 mm')
    const volume_cm3 = ((Math.PI / 4) * (100 ** 2 - 80 ** 2) * 60) / 1000
    expect(answer.net_g.value).toBeCloseTo(volume_cm3 * 1.24 * 0.846149, 0)
  })

  test('calipers, with decimal points or commas', () => {
    const [points, commas] = ['1.74x1.76,1.75x1.77', '1,74x1,76; 1,75x1,77'].map(
      (pairs) => perMetreOf('--density', '1.24', '--calipers', pairs).value,
    )
    expect(points).toBe(commas)
    // The prior of the diameter has its say, too.
    expect(points).toBeCloseTo(1.24 * (Math.PI / 4) * 1.755 ** 2, 1)
  })

  test('a cut length is as good as the figures typed', () => {
    expect(perMetreOf('--cut', '1m=2.98g').u).toBeLessThan(0.04)
    expect(perMetreOf('--cut', '1m=3g').u).toBeGreaterThan(0.1)
  })

  test('a scale, by its figures and by its class', () => {
    expect(withScale('step=10g')).toBeGreaterThan(withScale('step=1g, gain=0.1%') * 3)
    expect(withScale('repeat=4g')).toBeGreaterThan(withScale('repeat=0.5g') * 3)
    expect(withScale('class=III, step=1g')).toBeGreaterThan(withScale('class=III, step=0.1g'))
  })

  test('a printer that feeds less than it is asked needs less', () => {
    const [less, asked] = ['0.98 ± 0.005', '100 %'].map(
      (factor) => check(...draw62, '--net', '172g', '--feed-factor', factor).needed_g.value,
    )
    expect(less! / asked!).toBeCloseTo(0.98, 2)
  })

  test('confidence moves the call and not the chance', () => {
    const reel = ['--gross', '422g', '--tare', '250g'] as const
    const strict = check(...draw62, ...reel, '--confidence', '99.9%')
    expect(strict.verdict).toBe('close')
    expect(strict.chance).toBe(check(...draw62, ...reel).chance)
  })
})

describe('figures typed without ±', () => {
  test.each([
    ['--net', '172g', 1],
    ['--net', '0.17kg', 10],
    ['--net', '6.1 oz', 2.8349523],
    ['--net', '2 lb 3 oz', 28.349523],
    ['--net', '1,5 kg', 100],
  ])('%s %s is good to half its last place', (option, value, place) => {
    const { u } = check(...draw62, option, value).net_g
    expect(u / (place / Math.sqrt(12))).toBeCloseTo(1, 2)
  })

  test('of a reel nothing is exact: ±0 has the spread of whole grams', () => {
    expect(check(...draw62, '--net', '172±0g').net_g.u).toBeCloseTo(1 / Math.sqrt(12), 3)
  })

  test('a length and a linear density have their doubt', () => {
    const { net_g: net } = check(...draw62, '--length', '60m', '--linear-density', '2.98±0.000001')
    expect(net.u / ((2.98 * 1) / Math.sqrt(12))).toBeCloseTo(1, 2)
    const given = check(...draw62, '--net', '172g', '--linear-density', '3.0')
    expect(given.linear_density_g_per_m.u).toBeGreaterThan(0.02)
  })

  test('a weighing with fewer figures than the scale shows is wider', () => {
    const coarse = check(...draw62, '--gross', '0.4kg', '--tare', '250g').net_g.u
    const fine = check(...draw62, '--gross', '400g', '--tare', '250g').net_g.u
    const finer = check(...draw62, '--gross', '0.4000kg', '--tare', '250g').net_g.u
    expect(coarse).toBeGreaterThan(25)
    expect(fine).toBeLessThan(1.5)
    expect(finer).toBe(fine)
  })

  test('start and tail have their doubt', () => {
    const linear = ['--linear-density', '2.98±0.000001', '--feed-factor', '1±0'] as const
    const exact = ['--net', '172±0.000001g', ...linear] as const
    const { margin_g: margin } = check(
      '--draw',
      '40m',
      ...exact,
      '--start-allowance',
      '4cm',
      '--tail',
      '1m',
    )
    expect(margin.u / ((2.98 * Math.hypot(1, 0.01)) / Math.sqrt(12))).toBeCloseTo(1, 2)
  })

  test('no column runs into the next, and nothing is told finer than a bench can', () => {
    const words = ['--draw', '0.5m', '--net', '2.98±0.00000001g', '--tail', '40±0.0000001mm']
    const { out } = runCli(['check', ...words, '--linear-density', '2.98±0.00000007'])
    expect(out).toContain('  reel      2.980 ± 0.010 g')
    const rows = out
      .split('\n')
      .filter((line) => /^ {2}(?:print|tail|margin) {2,}-?[\d.]+ ±/.test(line))
    expect(rows.length).toBe(3)
    for (const row of rows) expect(row).toMatch(/ g {2,}\S/)
  })
})

describe('facts that contradict each other', () => {
  const words = '--draw 60m --gross 800g --gross-new 1000g --tare-of-make 250g --label 1kg'.split(
    ' ',
  )

  test('leave the call close, with the reason under it', () => {
    const answer = check(...words)
    expect(answer.verdict).toBe('close')
    expect(answer.next).toEqual([])
    expect(answer.used.filter(({ surprising }) => surprising).length).toBeGreaterThan(1)
    const { exit, out } = runCli(['check', ...words])
    expect(exit).toBe(10)
    const [, , , call, why] = ['', ...out.split('\n')]
    expect(call).toContain('CLOSE, no chance to be told')
    expect(why).toContain('does not agree, so nothing is sure')
    expect(out).toContain('Find the figure that is wrong')
    // A net or a tare between facts that do not agree would be nobody's.
    expect(out.replaceAll(/\s+/g, ' ')).toContain('Of the reel no figure is given')
    expect(out).not.toMatch(/with a tare of|^ {2}(?:reel|margin|per metre) /m)
  })
})

describe('several tools', () => {
  test('each sure by itself and not together: the print is spoken of, and what settles it', () => {
    // A net mass that is a little more than T0 and T1 need.
    const nets = ['15.83±1.6g', '13.1±1.6g'] as const
    const words = [
      'two-tool-part.gcode',
      ...nets.flatMap((net, tool) => ['--tool', `T${tool}: net=${net}, tare=250g, material=PLA`]),
    ]
    const answer = check(...words)
    expect(answer.tools.map(({ verdict }) => verdict)).toEqual(['enough', 'enough'])
    expect(answer.verdict).toBe('close')
    expect(answer.next[0]?.id).toBe('weigh_reel')
    const { out } = runCli(['check', ...words], { cwd: folder })
    expect(out).toContain('Each reel by itself is sure enough, but that all of them last is not.')
    expect(out).not.toContain('finishes it;')
    expect(out).toMatch(/To settle it, T\d|Nothing settles it surely/)
  })

  const file = 'two-tool-part.gcode'

  test('plain options serve the tool that --tool does not name', () => {
    const answer = check(file, '--net', '100g', '--tool', 'T1: net=9g, material=PLA')
    expect(answer.tools.map(({ net_g }) => Math.round(net_g.value))).toEqual([100, 9])
    expect(answer.tool).toBe(1)
    expect(answer.net_g).toEqual(answer.tools[1]?.net_g)
  })

  test('the material may be told once for all', () => {
    const answer = check(file, '--density', '1.3', '--tool', 'T0: net=90g', '--tool', 'T1: net=90g')
    expect(new Set(answer.tools.map((tool) => tool.linear_density_g_per_m.value)).size).toBe(1)
  })

  test('lists inside a tool stay whole', () => {
    const answer = check(
      file,
      '--tool',
      'T0: gross=422g, tare=250g, calipers=1.74x1.76, 1.75x1.77, new',
      '--tool',
      'T1: winding=hub=80mm, outer=100mm, width=60mm, density=1,24',
    )
    expect(answer.tools.map(({ used }) => used.map(({ id }) => id))).toEqual([
      ['weighing_now', 'empty_carrier', 'calipers'],
      ['density', 'winding'],
    ])
  })
})

describe('the answer to weighing around a print', () => {
  test('is the mass for each metre asked, with the feed factor in it', () => {
    const reel = [...draw62, '--gross', '440g', '--tare', '250g'] as const
    const before = check(...reel)
    const promised = before.next.find(({ id }) => id === 'weigh_around_a_print')
    expect(promised).toBeDefined()
    // It comes out as expected: 60 g for 20 m.
    const perMetre = before.linear_density_g_per_m.value.toFixed(4)
    const told = ['--linear-density', `${perMetre} ± 0.045`, '--feed-factor', '1±0'] as const
    const after = check(...reel, ...told)
    expect(after.margin_g.u / promised!.margin_u_g).toBeGreaterThan(0.8)
    expect(after.margin_g.u / promised!.margin_u_g).toBeLessThan(1.25)
    expect(after.next.map(({ id }) => id)).not.toContain('weigh_around_a_print')
  })
})

describe('a planned reel change', () => {
  const there = 'G1 X50 E10\nG1 X0 E10\n'
  writeFileSync(
    join(folder, 'change.gcode'),
    `M83\nG1 X0 Y0 Z0.2 F900\n${there.repeat(50)}M600\nG1 Z0.4\n${there.repeat(150)}`,
  )

  test.each([
    ['1', 1000],
    ['2', 3000],
  ])('part %s draws %d mm', (stretch, draws) => {
    const answer = check('change.gcode', '--net', '100g', '--stretch', stretch)
    expect(answer.needed_mm.value).toBeCloseTo(draws, 9)
    expect(answer.print).toMatchObject({ stretch: Number(stretch), stretches: 2 })
  })

  test('the whole without it', () => {
    const answer = check('change.gcode', '--net', '100g')
    expect(answer.needed_mm.value).toBeCloseTo(4000, 9)
    expect(answer.print).toMatchObject({ stretch: null, stretches: 2 })
  })

  test('a part that runs dry does so inside it', () => {
    const answer = check('change.gcode', '--net', '6g', '--stretch', '2')
    expect(answer.verdict).toBe('short')
    expect(answer.run_dry.likely?.layer).toBe(2)
    // Layer 1 belongs to the reel before.
    expect(answer.change_before).toBeNull()
  })
})

describe('a zip with several prints', () => {
  const bytes = (name: string): Uint8Array => readFileSync(join(folder, name))
  writeFileSync(
    join(folder, 'both.zip'),
    zipOf([
      { name: 'a/knob.gcode', bytes: bytes('knob.gcode') },
      { name: 'a/pin.gcode', bytes: bytes('hinge-pin.gcode') },
    ]),
  )

  test.each(['a/knob.gcode', 'knob.gcode'])('--member %s', (member) => {
    const answer = check('both.zip', '--net', '100g', '--member', member)
    expect(answer.print?.member).toBe('a/knob.gcode')
    expect(answer.needed_mm.value).toBeCloseTo(4912, -1)
  })
})

test('standard input', () => {
  const { exit, out } = runCli(['check', '-', '--net', '100g', '--json'], {
    input: readFileSync(join(folder, 'knob.gcode')),
  })
  expect(exit).toBe(0)
  const fromFile = check('knob.gcode', '--net', '100g')
  expect(JSON.parse(out)).toEqual({ ...fromFile, print: { ...fromFile.print, file: '-' } })
})

test('a file that firmware reads differently: one result for each reading', () => {
  const e = Array.from({ length: 40 }, (_, i) => `G1 X${i % 2 ? 0 : 50} E${i * 50}`).join('\n')
  writeFileSync(join(folder, 'asks.gcode'), `M83\nG90\nG1 Z0.2\n${e}\n`)
  const answer = check('asks.gcode', '--net', '50g')
  expect(answer.alternatives.length).toBeGreaterThan(1)
  expect(answer.next.map(({ id }) => id)).toContain('name_firmware')
  expect(answer.findings.map(({ code }) => code)).toContain('families_differ')
  const { out } = runCli(['check', 'asks.gcode', '--net', '50g'], { cwd: folder })
  expect(out).toContain('Answer --firmware')
  expect(check('asks.gcode', '--net', '50g', '--firmware', 'host').alternatives).toEqual([])
})

test('of a file that may be cut short no reel is called enough', () => {
  const whole = readFileSync(join(folder, 'tackle-box.gcode'))
  // In the middle of a move, after its E word has begun.
  const at = whole.indexOf(' E', whole.length / 2) + 5
  const { exit, out } = runCli(['check', '-', '--net', '900g'], {
    cwd: folder,
    input: whole.subarray(0, at),
  })
  expect(exit).toBe(10)
  expect(out).toContain('What is in the file may not be the whole print.')
  expect(runCli(['check', 'tackle-box.gcode', '--net', '900g'], { cwd: folder }).exit).toBe(0)
  writeFileSync(join(folder, 'cut.gcode'), whole.subarray(0, at))
  const told = check('cut.gcode', '--net', '900g')
  expect([told.verdict, ...told.tools.map(({ verdict }) => verdict)]).toEqual(['close', 'close'])
  expect(told.next).toEqual([])
  const short = check('cut.gcode', '--net', '20g')
  expect([short.verdict, ...short.tools.map(({ verdict }) => verdict)]).toEqual(['short', 'short'])
})

test.each([0, 1e-5, 0.2])(
  'nor of one whose E is relative where only a macro says so: steps that differ by %f mm',
  (spread) => {
    const moves = Array.from({ length: 400 }, (_, k) => {
      const [x, y] = [
        [0, 0],
        [20, 0],
        [20, 20],
        [0, 20],
      ][k % 4]!
      return `G1 X${x} Y${y} Z${0.2 * (1 + Math.floor(k / 40))} E${(0.66 + spread * (k % 3)).toFixed(5)}`
    })
    writeFileSync(join(folder, 'macro.gcode'), ['BEGIN_BED', ...moves, ''].join('\n'))
    const reel = ['macro.gcode', '--net', '200g', '--density', '1.24', '--firmware', 'host']
    const { verdict, findings } = check(...reel)
    expect(verdict).toBe('close')
    expect(findings.map(({ code }) => code)).toContain('e_looks_relative')
    const { out } = runCli(['check', ...reel], { cwd: folder })
    expect(out.replaceAll(/\s+/g, ' ')).toContain('Answer --e-mode relative, or --e-mode absolute.')
    const told = check(...reel, '--e-mode', 'relative')
    expect(told.verdict).toBe('enough')
    expect(told.needed_mm.value).toBeCloseTo(400 * 0.66 + 399 * spread, 3)
  },
)

test('nor of one in which nothing was found that feeds', () => {
  // As with an extruder that goes by another letter.
  const input = readFileSync(join(folder, 'tackle-box.gcode'), 'utf8').replaceAll(' E', ' A')
  const { exit, out } = runCli(['check', '-', '--net', '900g'], { cwd: folder, input })
  expect(exit).toBe(10)
  expect(out).toContain('What the print draws was not found in the file.')
})
