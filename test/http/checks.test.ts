import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import {
  type CheckJson,
  type CheckReelsRequest,
  checkJson,
  checksJson,
  errorJson,
  problemJson,
  type ReelAskedJson,
  readPrintJson,
  shelfCheckJson,
} from '../../src/contract/index.ts'
import { folderOfPrints, runCli } from '../cli/run-cli.ts'
import { type Served, served } from './served.ts'

const folder = folderOfPrints()
const told = '/api/checks/reels'

/** Id of a demo print that the server has read and kept. */
const kept = async ({ app }: Served, file: string): Promise<string> => {
  const sent = new Request(`http://localhost/api/prints?keep=true&file=${file}`, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: readFileSync(join(folder, file)),
  })
  return readPrintJson.parse(await (await app.fetch(sent)).json()).sha256
}

const fromApi = async ({ ask }: Served, body: CheckReelsRequest): Promise<CheckJson> => {
  const answer = await ask('POST', told, body)
  const text = await answer.text()
  if (answer.status !== 200) throw new Error(text)
  return checkJson.parse(JSON.parse(text))
}

const fromCli = (words: readonly string[]): CheckJson =>
  checkJson.parse(JSON.parse(runCli(['check', ...words, '--json'], { cwd: folder }).out))

/**
 * To nine figures: facts of a ledger come in another order from a file. Without how the file was packed and
 * what was found in it, which is not kept with a print, and without its times, which are kept to the second.
 */
const figures = ({ print, findings: _findings, ...more }: CheckJson): unknown =>
  JSON.parse(
    JSON.stringify({ ...more, print: print && { ...print, container: null, lines: null } }),
    (key, value: unknown) => {
      if (key.endsWith('_s') || key.endsWith('_at')) return undefined
      return typeof value === 'number' ? Number(value.toPrecision(9)) : value
    },
  )

/** A print, the options that tell the rest, and the same as the API takes it. */
const cases: readonly (readonly [
  file: string,
  words: readonly string[],
  body: Omit<CheckReelsRequest, 'print'>,
])[] = [
  [
    'tackle-box.gcode',
    ['--gross', '422g', '--label', '1000g', '--material', 'PLA', '--tare-of-make', '281g'],
    {
      reels: [
        {
          gross: { reading_g: 422, last_place_g: 1 },
          label_net_g: 1000,
          material: 'PLA',
          empty_carrier: { reading_g: 281, last_place_g: 1 },
        },
      ],
    },
  ],
  [
    'tackle-box.gcode',
    [
      '--gross',
      '0.43kg',
      '--extra',
      '12 ± 1 g',
      '--gross-new',
      '1240 ± 2 g',
      '--tare',
      '250g',
      '--scale',
      'class=III, step=1g',
      '--cut',
      '2m=5.96g',
      '--density',
      '1.24',
      '--diameter',
      '1.75mm',
      '--confidence',
      '90%',
    ],
    {
      confidence: 0.9,
      reels: [
        {
          gross: { reading_g: 430, last_place_g: 10, extra_g: { value: 12, u: 1 } },
          gross_when_new: { reading_g: 1240, u_g: 2 },
          own_carrier: { reading_g: 250, last_place_g: 1 },
          scale: { class: 'III', step_g: 1 },
          cut: {
            length_mm: { value: 2000, u: 1 },
            weighing: { reading_g: 5.96, last_place_g: 0.01 },
          },
          density_g_per_cm3: { value: 1.24, u: 0 },
          diameter_mm: { value: 1.75, u: 0 },
        },
      ],
    },
  ],
  [
    'knob.gcode',
    [
      '--winding',
      'hub=80±2mm, outer=83mm, width=60mm',
      '--carrier',
      'cardboard',
      '--calipers',
      '1.74x1.76 ± 0.01 mm; 1.75x1.77 ± 0.01 mm',
      '--linear-density',
      '2.98±0.02',
      '--feed-factor',
      '1.01±0.01',
      '--start-allowance',
      '40±5mm',
      '--tail',
      '500±50mm',
    ],
    {
      feed_factor: { value: 1.01, u: 0.01 },
      start_allowance_mm: { value: 40, u: 5 },
      tail_mm: { value: 500, u: 50 },
      reels: [
        {
          winding: {
            hub_mm: { value: 80, u: 2 },
            outer_mm: { value: 83, u: 1 },
            width_mm: { value: 60, u: 1 },
          },
          carrier: 'cardboard',
          calipers: {
            places_mm: [
              [1.74, 1.76],
              [1.75, 1.77],
            ],
            u_mm: 0.01,
          },
          linear_density_g_per_m: { value: 2.98, u: 0.02 },
        },
      ],
    },
  ],
  [
    'two-tool-part.gcode',
    [
      '--material',
      'PETG',
      '--tool',
      'T1: net=20±1g, length=7±1m, material=PETG',
      '--tool',
      'T0: new, label=1kg, scale=step=2g, gain=1%, gross=1240g',
    ],
    {
      reels: [
        {
          tool: 1,
          net_g: { value: 20, u: 1 },
          length_mm: { value: 7000, u: 1000 },
          material: 'PETG',
        },
        {
          is_new: true,
          label_net_g: 1000,
          material: 'PETG',
          scale: { step_g: 2, gain: 0.01 },
          gross: { reading_g: 1240, last_place_g: 1 },
        },
      ],
    },
  ],
]

test.each(cases)('of %s the API tells what `check %j` tells', async (file, words, body) => {
  const server = await served({ isEmpty: true })
  const answer = await fromApi(server, { print: await kept(server, file), ...body })
  expect(figures(answer)).toEqual(figures(fromCli([file, ...words])))
})

/** One figure of a reel said to be exact, and what the command line takes where none is stated. */
const exact: readonly (readonly [draw: string, words: readonly string[], reel: ReelAskedJson])[] = [
  [
    '24m',
    ['--winding', 'hub=80mm, outer=90mm, width=60mm', '--material', 'PLA'],
    {
      material: 'PLA',
      winding: {
        hub_mm: { value: 80, u: 0 },
        outer_mm: { value: 90, u: 0 },
        width_mm: { value: 60, u: 0 },
      },
    },
  ],
  [
    '33m',
    ['--net', '100±1g', '--cut', '1m=2.98g'],
    {
      net_g: { value: 100, u: 1 },
      cut: { length_mm: { value: 1000, u: 0 }, weighing: { reading_g: 2.98, last_place_g: 0.01 } },
    },
  ],
  // 0.7 %, what a metre differs from its reel.
  [
    '33.2m',
    ['--net', '100g', '--linear-density', '3±0.021'],
    { net_g: { value: 100, u: 0 }, linear_density_g_per_m: { value: 3, u: 0 } },
  ],
  ['33m', ['--net', '100g'], { net_g: { value: 100, u: 0 } }],
  ['20m', ['--length', '20m'], { length_mm: { value: 20_000, u: 0 } }],
]

test.each(exact)('of %s by `%j`, no figure is exact', async (draw, words, reel) => {
  const server = await served({ isEmpty: true })
  const length_mm = Number.parseFloat(draw) * 1000
  const answer = await fromApi(server, { length_mm, reels: [reel] })
  expect(figures(answer)).toEqual(figures(fromCli(['--draw', draw, ...words])))
  expect(answer.verdict).toBe('close')
})

const moments = ({ time, run_dry, change_before }: CheckJson) =>
  [time?.takes, run_dry.clock, change_before?.clock].flatMap((clock) =>
    [clock?.early_at, clock?.likely_at, clock?.late_at].map((at) => Date.parse(at ?? '')),
  )

test('where the start is told times are moments, of told reels and of those of the shelf', async () => {
  const start_at = '2026-03-01T21:30:00.000Z'
  const words = ['tackle-box.gcode', '--net', '100g', '--material', 'PLA', '--start', start_at]
  const typed = fromCli(words)
  const server = await served()
  const print = await kept(server, 'tackle-box.gcode')
  const reels = [{ net_g: { value: 100, u: 0 }, material: 'PLA' }]
  const answer = await fromApi(server, { print, start_at, reels })
  expect(answer.time?.start_at).toBe(start_at)
  const [own, other] = [moments(answer), moments(typed)]
  expect(own.filter(Number.isFinite)).toHaveLength(9)
  // Times are kept with a print to the second.
  for (const [place, at] of own.entries()) expect(Math.abs(at - other[place]!)).toBeLessThan(60_000)
  const named = await server.ask('POST', '/api/checks/reels', {
    print,
    start_at,
    reels: [{ reel: 'QX5BN' }],
  })
  const onShelf = checkJson.parse(await named.json())
  expect(onShelf.time).toMatchObject({
    start_at,
    takes: { likely_at: expect.stringMatching(/^2026-03-0\dT/) },
  })
})

test('a length, on a printer of the ledger: what its prints have taught is taken', async () => {
  const server = await served()
  const reels = [{ net_g: { value: 100, u: 1 }, material: 'PLA' }]
  const length = { length_mm: 33_000, reels }
  const words = ['--draw', '33m', '--net', '100±1g', '--material', 'PLA']
  const there = ['--ledger', 'marrowick.ndjson', '--printer', 'the Gull']
  const onGull = await fromApi(server, { ...length, printer: 'the Gull' })
  expect(figures(onGull)).toEqual(figures(fromCli([...words, ...there])))
  expect(onGull.printer).toMatchObject({ name: 'the Gull', stands_in: false })
  // What is told goes before it, and without a printer nothing learnt is taken.
  const fed = { feed_factor: { value: 1.02, u: 0.001 }, tail_mm: { value: 100, u: 10 } }
  const typed = ['--feed-factor', '1.02±0.001', '--tail', '100±10mm']
  const onTold = await fromApi(server, { ...length, printer: 'the Gull', ...fed })
  expect(figures(onTold)).toEqual(figures(fromCli([...words, ...there, ...typed])))
  const onAny = await fromApi(server, length)
  expect(figures(onAny)).toEqual(figures(fromCli(words)))
  const margins = [onGull, onTold, onAny].map(({ margin_g }) => margin_g.value)
  expect(new Set(margins).size).toBe(3)
})

const refused: readonly (readonly [
  words: readonly string[],
  reels: CheckReelsRequest['reels'],
  code: string,
])[] = [
  [['--gross-new', '1240g'], [{ gross_when_new: { reading_g: 1240 } }], 'nothing_known'],
  [
    ['--gross', '100g', '--tare', '250g'],
    [{ gross: { reading_g: 100 }, own_carrier: { reading_g: 250 } }],
    'gross_below_tare',
  ],
  [
    ['--net', '100g', '--density', '1240'],
    [{ net_g: { value: 100, u: 0.3 }, density_g_per_cm3: { value: 1240, u: 0 } }],
    'impossible_input',
  ],
  [
    ['--net', '90g', '--material', 'PLA-CF'],
    [{ net_g: { value: 90, u: 0.3 }, material: 'PLA-CF' }],
    'density_needed',
  ],
  [
    ['--gross', '422g', '--tare', '250g', '--carrier', 'metal'],
    [{ gross: { reading_g: 422 }, own_carrier: { reading_g: 250 }, carrier: 'metal' }],
    'tare_twice',
  ],
  [
    ['--gross', '5kg', '--scale', 'class=IIII, step=1g'],
    [{ gross: { reading_g: 5000 }, scale: { class: 'IIII', step_g: 1 } }],
    'load_out_of_class',
  ],
  [
    ['--gross', '400g', '--tare', '250g', '--scale', 'class=III, step=0g'],
    [
      {
        gross: { reading_g: 400 },
        own_carrier: { reading_g: 250 },
        scale: { class: 'III', step_g: 0 },
      },
    ],
    'step_not_positive',
  ],
  [
    ['--gross', '400g', '--tare', '250g', '--scale', 'class=III, step=1g, gain=1%'],
    [
      {
        gross: { reading_g: 400 },
        own_carrier: { reading_g: 250 },
        scale: { class: 'III', step_g: 1, gain: 0.01 },
      },
    ],
    'scale_told_twice',
  ],
  [['--tool', 'T7: net=1g'], [{ tool: 7, net_g: { value: 1, u: 0.3 } }], 'tool_not_used'],
]

test.each(refused)(
  '`check %j` and %j are refused in the same sentence',
  async (words, reels, code) => {
    const { ask } = await served({ isEmpty: true })
    const answer = await ask('POST', told, { length_mm: 62_000, reels })
    expect(answer.status).toBe(422)
    const problem = problemJson.parse(await answer.json())
    const { out, exit } = runCli(['check', '--draw', '62m', '--json', ...words])
    expect(exit).toBe(2)
    const { error } = errorJson.parse(JSON.parse(out))
    expect([problem.code, error.code]).toEqual([code, code])
    // Behind it the command line may say by which options.
    expect(error.message.slice(0, problem.detail.length)).toBe(problem.detail)
  },
)

test('what is told of a reel is checked, and nothing is written down', async () => {
  const { ask, store } = await served()
  const before = await store.revision()
  const net = { net_g: { value: 100, u: 1 } }
  const codes = await Promise.all(
    [
      { reels: [net] },
      { length_mm: 1000, reels: [net], printer: 'a kettle' },
      { length_mm: 1000, reels: [net, net] },
      { length_mm: 1000, reels: [net], tail_mm: { value: 400_000, u: 1 } },
      { length_mm: 1000, reels: [net], feed_factor: { value: 95, u: 1 } },
      { length_mm: 1000, reels: [{ ...net, weight: 3 }] },
    ].map(async (body) => problemJson.parse(await (await ask('POST', told, body)).json()).code),
  )
  expect(codes).toEqual([
    'nothing_to_check',
    'printer_unknown',
    'reel_without_tool',
    'length_too_large',
    'request_invalid',
    'request_invalid',
  ])
  // What is wrong with a reel is said of it, and not of the other way to tell of one.
  const wrong = [
    [{ ...net, weight: 3 }, 'weight'],
    [{ reel: 'QX5BN', weighing: { reading_g: 'much' } }, 'reels.0.weighing.reading_g'],
    [{ net_g: { value: 'much', u: 1 } }, 'reels.0.net_g.value'],
  ] as const
  for (const [reel, says] of wrong) {
    // oxlint-disable-next-line no-await-in-loop -- one after another
    const answer = await ask('POST', told, { length_mm: 1000, reels: [reel] })
    // oxlint-disable-next-line no-await-in-loop -- as above
    expect(problemJson.parse(await answer.json()).detail).toContain(says)
  }
  const cut = { length_mm: 1000, reels: [net], cut_short: true }
  const answer = checkJson.parse(await (await ask('POST', told, cut)).json())
  expect(answer.verdict).not.toBe('enough')
  expect(await store.revision()).toEqual(before)
})

const ofLedger = ['--ledger', 'marrowick.ndjson']

test('a reel of the shelf and one that is told serve one print together', async () => {
  const server = await served()
  const print = await kept(server, 'two-tool-part.gcode')
  const answer = await fromApi(server, {
    print,
    printer: 'the Gull',
    reels: [{ tool: 1, net_g: { value: 90, u: 1 }, material: 'PLA' }, { reel: 'QX5BN' }],
  })
  const tools = ['--tool', 'T1: net=90±1g, material=PLA', '--tool', 'T0: reel=QX5BN']
  const words = ['two-tool-part.gcode', ...ofLedger, '--printer', 'the Gull', ...tools]
  expect(figures(answer)).toEqual(figures(fromCli(words)))
  expect(answer.tools.map(({ reel }) => reel?.id)).toEqual(['QX5BN', undefined])
})

test('a mass stands in for a print, for reels and for the shelf', async () => {
  const server = await served()
  const stated = [
    '--mass',
    '180g',
    '--material',
    'PLA',
    '--density',
    '1.25',
    '--diameter',
    '1.75mm',
  ]
  const mass = {
    mass_g: 180,
    material: 'PLA',
    density_g_per_cm3: { value: 1.25, u: 0 },
    diameter_mm: { value: 1.75, u: 0 },
  }
  const answer = await fromApi(server, { mass, reels: [{ reel: 'QX5BN' }], printer: 'the Gull' })
  const on = [...ofLedger, '--printer', 'the Gull']
  expect(figures(answer)).toEqual(figures(fromCli([...stated, '--reel', 'QX5BN', ...on])))
  const asked = { mass, material: 'PLA', diameter_mm: 1.75, printer: 'the Gull', all: true }
  const shelf = await (await server.ask('POST', '/api/checks/shelf', asked)).json()
  const typed = runCli(['check', ...stated, '--all', ...on, '--json'], { cwd: folder }).out
  expect(calls(shelf)).toEqual(calls(JSON.parse(typed)))
  const bare = await server.ask('POST', '/api/checks/shelf', { mass: { mass_g: 180 } })
  expect(problemJson.parse(await bare.json()).code).toBe('density_missing')
})

/** Of each reel of the shelf what is said of it. */
const calls = (answer: unknown): unknown =>
  shelfCheckJson.parse(answer).tools.map(({ needed_mm, reels }) => ({
    needed_mm: needed_mm.toPrecision(9),
    reels: reels.map(({ reel, verdict, chance }) => [reel.id, verdict, chance.toPrecision(6)]),
  }))

test('what is told of the printer goes before what it has taught, over the shelf too', async () => {
  const server = await served()
  const print = await kept(server, 'tackle-box.gcode')
  const fed = { feed_factor: { value: 1.1, u: 0.001 }, tail_mm: { value: 9000, u: 10 } }
  const asked = { print, printer: 'the Gull', all: true }
  const shelf = async (more: object) =>
    (await server.ask('POST', '/api/checks/shelf', { ...asked, ...more })).json()
  const words = [
    'check',
    'tackle-box.gcode',
    ...ofLedger,
    '--printer',
    'the Gull',
    '--all',
    '--json',
  ]
  const typed = ['--feed-factor', '1.1±0.001', '--tail', '9±0.01m']
  const found = calls(await shelf(fed))
  expect(found).toEqual(calls(JSON.parse(runCli([...words, ...typed], { cwd: folder }).out)))
  expect(found).not.toEqual(calls(await shelf({})))
})

const there = 'G1 X50 E10\nG1 X0 E10\n'
const changing = `M83\nG1 X0 Y0 Z0.2 F900\n${there.repeat(50)}M600\nG1 Z0.4\n${there.repeat(150)}`
writeFileSync(join(folder, 'change.gcode'), changing)

test.each([1, 2])('part %i between planned changes is judged by itself', async (stretch) => {
  const server = await served()
  const print = await kept(server, 'change.gcode')
  const reels = [{ net_g: { value: 6, u: 0.1 }, material: 'PLA' }]
  const answer = await fromApi(server, { print, stretch, reels })
  const words = ['--net', '6±0.1g', '--material', 'PLA', '--stretch', `${stretch}`]
  expect(figures(answer)).toEqual(figures(fromCli(['change.gcode', ...words])))
  expect(answer.print).toMatchObject({ stretch, stretches: 2 })
  expect(answer.needed_mm.value).toBeCloseTo([1000, 3000][stretch - 1]!, 9)
})

test('a part that there is not, or that nobody knows, is refused', async () => {
  const server = await served()
  const print = await kept(server, 'change.gcode')
  const { changes: _changes, ...before } = (await server.store.print(print))!
  const old = { ...before, id: 'cd'.repeat(32) }
  await server.store.append([old])
  const codes = await Promise.all(
    [
      { print, stretch: 3 },
      { print: old.id, stretch: 1 },
      { print, stretch: 1, after_layer: 1 },
      { length_mm: 900, stretch: 1 },
      { print: await kept(server, 'two-tool-part.gcode'), stretch: 1 },
      { print, length_mm: 900 },
      { print, firmware: 'a kettle' },
    ].map(async (body) => {
      const answer = await server.ask('POST', '/api/checks/shelf', body)
      return problemJson.parse(await answer.json()).code
    }),
  )
  expect(codes).toEqual([
    'stretch_out_of_range',
    'changes_not_kept',
    'part_told_twice',
    'part_needs_print',
    'stretch_of_several_tools',
    'too_much_to_check',
    'firmware_unknown',
  ])
})

const inTurn = async ({ ask }: Served, body: object) => {
  const answer = await ask('POST', '/api/checks/in-turn', body)
  const text = await answer.text()
  if (answer.status !== 200) throw new Error(text)
  return checksJson.parse(JSON.parse(text))
}

const starts = (checks: readonly { readonly time: CheckJson['time'] }[]) =>
  checks.map(({ time }) => Date.parse(time?.start_at ?? ''))

const onTool = (tool: number): string =>
  `M83\nT${tool}\nG1 Z0.2 F900\n${'G1 X50 E100\nG1 X0 E100\n'.repeat(100)}`

describe('several prints in turn', () => {
  const start_at = '2026-03-01T21:30:00.000Z'
  const files = ['knob.gcode', 'tackle-box.gcode', 'hinge-pin.gcode']
  const typedOf = (words: readonly string[]) =>
    checksJson.parse(
      JSON.parse(
        runCli(['check', ...words, '--in-turn', '--start', start_at, '--json'], { cwd: folder })
          .out,
      ),
    )
  test('from reels: each by itself, and all of them together', async () => {
    const server = await served({ isEmpty: true })
    const prints = await Promise.all(
      files.map(async (file) => ({ print: await kept(server, file) })),
    )
    const reels = [{ net_g: { value: 150, u: 1 }, material: 'PLA' }]
    const answer = await inTurn(server, { prints, start_at, reels })
    const typed = typedOf([...files, '--net', '150±1g', '--material', 'PLA'])
    expect(figures(answer.together!)).toEqual(figures(typed.together!))
    expect(answer.checks.map((each) => figures(each as CheckJson))).toEqual(
      typed.checks.map((each) => figures(each as CheckJson)),
    )
    expect([answer.verdict, answer.errors]).toEqual([typed.verdict, []])
    const [own, other] = [starts(answer.checks), starts(typed.checks)]
    expect(own[0]).toBe(Date.parse(start_at))
    for (const [place, at] of own.entries()) {
      expect(Math.abs(at - other[place]!)).toBeLessThan(60_000)
      if (place > 0) expect(at).toBeGreaterThan(own[place - 1]! + 60_000)
    }
  })

  test('one reel does prints of different tools, and every print takes a start', async () => {
    const server = await served({ isEmpty: true })
    for (const tool of [0, 1]) writeFileSync(join(folder, `on-t${tool}.gcode`), onTool(tool))
    const prints = await Promise.all(
      ['on-t0.gcode', 'on-t1.gcode'].map(async (file) => ({ print: await kept(server, file) })),
    )
    // Each takes 20 m, some 60 g.
    const reels = [{ net_g: { value: 90, u: 1 }, material: 'PLA' }]
    const start_allowance_mm = { value: 1000, u: 400 }
    const asked = { start_at, reels, start_allowance_mm }
    const answer = await inTurn(server, { prints, ...asked })
    expect(answer.checks.map(({ verdict }) => verdict)).toEqual(['enough', 'enough'])
    expect([answer.together?.verdict, answer.verdict]).toEqual(['short', 'short'])
    // 40 m, and a start of each with all of its doubt.
    const { needed_g, linear_density_g_per_m: perMetre } = answer.together!
    expect(needed_g.value).toBeCloseTo(42 * perMetre.value, 6)
    expect(needed_g.u).toBeGreaterThan(0.8 * perMetre.value)
    const words = ['on-t0.gcode', 'on-t1.gcode', '--net', '90±1g', '--material', 'PLA']
    const typed = typedOf([...words, '--start-allowance', '1±0.4m'])
    expect(figures(answer.together!)).toEqual(figures(typed.together!))
    // Of one of the shelf, too: its printer's starts are learnt, and counted as often.
    const shelf = await served()
    await kept(shelf, 'on-t0.gcode')
    const times = async (count: number) =>
      (
        await inTurn(shelf, {
          prints: Array.from({ length: count }, () => prints[0]),
          start_at,
          printer: 'the Gull',
          reels: [{ reel: 'QX5BN' }],
        })
      ).together!.needed_g
    const [two, six] = [await times(2), await times(6)]
    expect(six.value).toBeCloseTo(3 * two.value, 6)
    expect(six.u).toBeGreaterThan(2 * two.u)
  })

  test('over the shelf, and after one that may not be whole no time of day is told', async () => {
    const server = await served()
    const [one, two, three] = await Promise.all(files.map((file) => kept(server, file)))
    const prints = [{ print: one }, { print: two, cut_short: true }, { print: three }]
    const asked = { prints, start_at, printer: 'the Gull', of_shelf: { material: 'PLA', most: 2 } }
    const answer = await inTurn(server, asked)
    expect(answer.together).toBeNull()
    expect(starts(answer.checks).map(Number.isFinite)).toEqual([true, true, false])
    for (const check of answer.checks) {
      expect(shelfCheckJson.parse(check).tools[0]!.reels.length).toBeLessThanOrEqual(2)
    }
    expect(answer.checks[1]!.verdict).not.toBe('enough')
  })

  test('a print that the reels do not suit is told apart, and the others are judged', async () => {
    const server = await served({ isEmpty: true })
    const mixed = ['knob.gcode', 'two-tool-part.gcode', 'hinge-pin.gcode']
    const prints = await Promise.all(
      mixed.map(async (file) => ({ print: await kept(server, file) })),
    )
    const reels = [{ tool: 0, net_g: { value: 900, u: 1 }, material: 'PLA' }]
    const answer = await inTurn(server, { prints, start_at, reels })
    expect(answer.checks).toHaveLength(2)
    expect(answer.errors).toMatchObject([
      { code: 'tool_without_reel', file: 'two-tool-part.gcode' },
    ])
    expect(answer.checks.map(({ verdict }) => verdict)).toEqual(['enough', 'enough'])
    // Nobody can say that all are enough.
    expect(answer.verdict).toBeNull()
    expect(Number.isFinite(starts(answer.checks)[1])).toBe(true)
    const both = { prints, start_at, reels, of_shelf: {} }
    const twice = await server.ask('POST', '/api/checks/in-turn', both)
    expect(problemJson.parse(await twice.json()).code).toBe('request_invalid')
  })
})

test('what a printer that has taught nothing feeds is named as assumed, of a told reel as of one of the shelf', async () => {
  const server = await served()
  await server.ask('POST', '/api/rows/printer', { name: 'new' })
  const idsOf = async (more: object): Promise<readonly string[]> => {
    const reels = [{ net_g: { value: 100, u: 1 }, material: 'PLA' }]
    const answer = await fromApi(server, { length_mm: 20_000, reels, printer: 'new', ...more })
    return answer.assumed.map(({ id }) => id).filter((id) => /feed|start|tail/.test(id))
  }
  expect(await idsOf({})).toEqual(['feed_factor', 'start_allowance', 'tail'])
  expect(await idsOf({ reels: [{ reel: 'QX5BN' }] })).toEqual([
    'feed_factor',
    'start_allowance',
    'tail',
  ])
  const feed_factor = { value: 1, u: 0.01 }
  expect(await idsOf({ feed_factor })).toEqual(['start_allowance', 'tail'])
  // The Gull has taught what it feeds.
  expect(await idsOf({ printer: 'the Gull' })).not.toContain('feed_factor')
})

const mm = ({ needed_g, needed_mm, linear_density_g_per_m: perMetre }: CheckJson): number =>
  (needed_g.value / perMetre.value) * 1000 - needed_mm.value

test('a reel that takes over feeds what a change takes, in the place of a start', async () => {
  const server = await served()
  await server.ask('POST', '/api/rows/printer', {
    name: 'long path',
    change_mm: { value: 1000, u: 100 },
  })
  const print = await kept(server, 'tackle-box.gcode')
  const reels = [{ net_g: { value: 500, u: 1 }, linear_density_g_per_m: { value: 3, u: 0.01 } }]
  const of = async (more: object) =>
    fromApi(server, {
      print,
      reels,
      after_layer: 100,
      feed_factor: { value: 1, u: 0.001 },
      ...more,
    })
  expect(mm(await of({ printer: 'long path' }))).toBeCloseTo(1000, 6)
  // Where nobody told, 200 mm; common practice, no source.
  expect(mm(await of({}))).toBeCloseTo(200, 6)
  const start_allowance_mm = { value: 30, u: 1 }
  expect(mm(await of({ start_allowance_mm }))).toBeCloseTo(30, 6)
})

test('of a reel that feeds a print which runs it is said that this is not taken off', async () => {
  const server = await served()
  const print = await kept(server, 'tackle-box.gcode')
  const codesOf = async (reel: string): Promise<readonly string[]> => {
    const answer = await fromApi(server, { print, reels: [{ reel }], printer: 'the Gull' })
    return answer.notices.map(({ code }) => code)
  }
  expect(await codesOf('QX5BN')).not.toContain('reel_feeds_a_print')
  const feeds = { print, printer: 'the Gull', reels: [{ reel: 'QX5BN' }] }
  const started = await server.ask('POST', '/api/running', feeds)
  expect(started.status).toBe(201)
  expect(await codesOf('QX5BN')).toContain('reel_feeds_a_print')
  expect(await codesOf('REYRT')).not.toContain('reel_feeds_a_print')
  const drawn = await server.ask('POST', '/api/draws', feeds)
  expect(drawn.status).toBe(201)
  expect(await codesOf('QX5BN')).not.toContain('reel_feeds_a_print')
})
