import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import {
  type CheckJson,
  type CheckToldRequest,
  checkJson,
  errorJson,
  problemJson,
  readPrintJson,
} from '../../src/contract/index.ts'
import { folderOfPrints, runCli } from '../cli/run-cli.ts'
import { type Served, served } from './served.ts'

const folder = folderOfPrints()
const told = '/api/checks/told'

/** Id of a demo print that the server has read and kept. */
const kept = async ({ app }: Served, file: string): Promise<string> => {
  const sent = new Request(`http://localhost/api/prints?keep=true&file=${file}`, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: readFileSync(join(folder, file)),
  })
  return readPrintJson.parse(await (await app.fetch(sent)).json()).sha256
}

const fromApi = async ({ ask }: Served, body: CheckToldRequest): Promise<CheckJson> => {
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
      if (key.endsWith('_s')) return undefined
      return typeof value === 'number' ? Number(value.toPrecision(9)) : value
    },
  )

/** A print, the options that tell the rest, and the same as the API takes it. */
const cases: readonly (readonly [
  file: string,
  words: readonly string[],
  body: Omit<CheckToldRequest, 'print'>,
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
const exact: readonly (readonly [
  draw: string,
  words: readonly string[],
  reel: CheckToldRequest['reels'][number],
])[] = [
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
  reels: CheckToldRequest['reels'],
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
  const cut = { length_mm: 1000, reels: [net], cut_short: true }
  const answer = checkJson.parse(await (await ask('POST', told, cut)).json())
  expect(answer.verdict).not.toBe('enough')
  expect(await store.revision()).toEqual(before)
})
