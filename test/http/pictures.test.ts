import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { problemJson } from '../../src/contract/index.ts'
import { folderOfPrints, runCli } from '../cli/run-cli.ts'
import { zipOf } from '../zip-of.ts'
import { served } from './served.ts'

const folder = folderOfPrints()
const bytesOf = (name: string): Uint8Array => readFileSync(join(folder, name))
const knob = bytesOf('knob.gcode')
const server = await served()

const sent = (path: string, body: Uint8Array | string = knob): Request =>
  new Request(`http://localhost${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: body as BodyInit,
  })

const ask = async (query: string, body?: Uint8Array | string): Promise<Response> =>
  server.app.fetch(sent(`/api/pictures?${query}`, body))

const pictureOf = async (response: Response): Promise<Buffer> => {
  if (response.status !== 200) expect(await response.json()).toBeUndefined()
  return Buffer.from(await response.arrayBuffer())
}

/** What the command draws of the same. */
const drawn = (kind: string, ...words: readonly string[]): Buffer => {
  const { err } = runCli([...words, '--picture', `drawn.${kind}`, '--overwrite'], { cwd: folder })
  expect(err).toBe('')
  return readFileSync(join(folder, `drawn.${kind}`))
}

const refusedAs = async (response: Response): Promise<readonly [string, string]> => {
  const { code, detail } = problemJson.parse(await response.json())
  expect(detail).not.toMatch(/--[a-z]/)
  return [code, detail]
}
const codeOf = async (response: Response): Promise<string> => (await refusedAs(response))[0]

test.each([
  ['svg', 'file=knob.gcode', ['read', 'knob.gcode']],
  ['svg', 'file=knob.gcode&kind=svg&layer=5', ['read', 'knob.gcode', '--layer', '5']],
  ['png', 'file=knob.gcode&kind=png', ['read', 'knob.gcode']],
  ['png', 'file=knob.gcode&kind=png&layer=9', ['read', 'knob.gcode', '--layer', '9']],
  [
    'svg',
    'file=knob.gcode&e_unit=mm%C2%B3&diameter_mm=2.85&e_mode=absolute&firmware=host',
    'read knob.gcode --e-unit mm3 --diameter 2.85mm --e-mode absolute --firmware host'.split(' '),
  ],
])('%s, %s: the same that the command draws', async (kind, query, words) => {
  const response = await ask(query)
  expect(response.headers.get('content-type')).toBe(kind === 'svg' ? 'image/svg+xml' : 'image/png')
  const picture = await pictureOf(response)
  expect(picture.equals(drawn(kind, ...words))).toBe(true)
})

/** At 21:30 tomorrow, by the clock of this machine. */
const evening = new Date()
evening.setDate(evening.getDate() + 1)
evening.setHours(21, 30, 0, 0)
const day = [evening.getFullYear(), evening.getMonth() + 1, evening.getDate()]
const typedEvening = `${day.map((part) => String(part).padStart(2, '0')).join('-')} 21:30`

/** As JSON in a query. */
const told = (values: Readonly<Record<string, unknown>>): string =>
  new URLSearchParams(
    Object.entries(values).map(([name, value]) => [name, JSON.stringify(value)]),
  ).toString()

describe('how far reels go', async () => {
  const onShelf = await served({ now: Date.now })
  const askReach = async (query: string, body?: Uint8Array): Promise<Response> =>
    onShelf.app.fetch(sent(`/api/pictures?${query}`, body))
  const halves = Buffer.from(knob)
    .toString()
    .replace(/^G0 Z6$/m, 'M600\n$&')
  writeFileSync(join(folder, 'halves.gcode'), halves)

  test.each([
    ['svg', 'knob.gcode', 'reel=QX5BN', '--reel QX5BN'],
    ['png', 'tackle-box.gcode', 'kind=png&reel=reyrt', '--reel REYRT'],
    [
      'svg',
      'tackle-box.gcode',
      `reel=FFP4R&printer=the%20Skiff&confidence=0.99&start_at=${evening.toISOString()}`,
      [
        '--reel',
        'FFP4R',
        '--printer',
        'the Skiff',
        '--confidence',
        '0.99',
        '--start',
        typedEvening,
      ],
    ],
    ['svg', 'tackle-box.gcode', 'reel=REYRT&layer=20', '--reel REYRT --layer 20'],
    [
      'svg',
      'two-tool-part.gcode',
      'reel=WHD38,44SGD',
      ['--reel', 'WHD38', '--tool', 'T1: reel=44SGD'],
    ],
    ['svg', 'halves.gcode', 'reel=44SGD&stretch=2', '--reel 44SGD --stretch 2'],
    [
      'svg',
      'tackle-box.gcode',
      `reel=REYRT&${told({ feed_factor: { value: 1.2, u: 0.01 }, start_allowance_mm: { value: 900, u: 20 }, tail_mm: { value: 700, u: 10 } })}`,
      '--reel REYRT --feed-factor 1.2±0.01 --start-allowance 900mm±20mm --tail 700mm±10mm',
    ],
    [
      'svg',
      'tackle-box.gcode',
      told({ reels: [{ reel: 'REYRT', weighing: { reading_g: 300, last_place_g: 1 } }] }),
      '--reel REYRT --gross 300g',
    ],
    [
      'svg',
      'tackle-box.gcode',
      told({
        reels: [
          {
            net_g: { value: 40, u: 2 },
            linear_density_g_per_m: { value: 2.98, u: 0.02 },
            diameter_mm: { value: 1.75, u: 0.02 },
          },
        ],
      }),
      '--net 40g±2g --linear-density 2.98±0.02 --diameter 1.75mm±0.02mm',
    ],
  ])('%s, %s, %s: the same that the command draws', async (kind, file, query, words) => {
    const asked = typeof words === 'string' ? words.split(' ') : words
    const picture = await pictureOf(await askReach(`file=${file}&${query}`, bytesOf(file)))
    const ofShelf = asked.includes('--reel') ? ['--ledger', 'marrowick.ndjson'] : []
    const same = drawn(kind, 'check', file, ...ofShelf, ...asked)
    expect(picture.equals(same)).toBe(true)
  })

  test('where a reel runs dry is shown, and when', async () => {
    const box = bytesOf('tackle-box.gcode')
    const plain = (await pictureOf(await askReach('reel=REYRT', box))).toString()
    expect(plain).toMatch(/>dry at \d+(?:\.\d)? mm</)
    expect(plain).toMatch(/>after about \d h/)
    expect(plain).toContain('class="band"')
    const begun = await askReach(`reel=REYRT&start_at=${evening.toISOString()}`, box)
    expect((await pictureOf(begun)).toString()).not.toMatch(/>after about/)
  })

  test.each([
    ['reel=K7RMY', 'reel_unknown'],
    ['reel=', 'id_length'],
    ['reel=gull%20grey', 'reel_by_words'],
    ['reel=QX5BN,REYRT', 'reel_without_tool'],
    ['reel=QX5BN&printer=nobody', 'printer_unknown'],
    ['reel=QX5BN&confidence=95', 'confidence_out_of_range'],
    ['reel=QX5BN&start_at=21:30', 'start_malformed'],
    ['reel=QX5BN&stretch=0', 'stretch_malformed'],
    ['reel=QX5BN&stretch=2', 'stretch_out_of_range'],
    ['printer=nobody', 'printer_unknown'],
    ['printer=the%20Gull&confidence=0.9', 'picture_needs_a_reel'],
    [told({ tail_mm: { value: 9, u: 1 } }), 'picture_needs_a_reel'],
    ['reel=QX5BN&tail_mm=long', 'parameter_invalid'],
    [`reel=QX5BN&${told({ feed_factor: { value: 2, u: 0 } })}`, 'parameter_invalid'],
    [`reel=QX5BN&${told({ reels: [{ reel: 'QX5BN' }] })}`, 'reels_told_twice'],
    [told({ reels: [{ reel: 'K7RMY' }] }), 'reel_unknown'],
    [told({ reels: [{ reel: 'QX5BN', gross: 402 }] }), 'parameter_invalid'],
  ])('%s: %s', async (query, code) => {
    expect(await codeOf(await askReach(query))).toBe(code)
  })

  test('each tool has a reel of its own', async () => {
    const two = bytesOf('two-tool-part.gcode')
    expect(await codeOf(await askReach('reel=WHD38', two))).toBe('tool_without_reel')
    expect(await codeOf(await askReach('reel=WHD38,WHD38', two))).toBe('reel_twice')
  })
})

test('a PNG by its signature, its size and its end', async () => {
  const picture = await pictureOf(await ask('kind=png'))
  expect(picture.subarray(0, 8).toString('latin1')).toBe('\u0089PNG\r\n\u001A\n')
  expect(picture.readUInt32BE(16)).toBeGreaterThan(800)
  expect(picture.readUInt32BE(20)).toBeGreaterThan(300)
  expect(picture.subarray(-8, -4).toString('latin1')).toBe('IEND')
})

test('one that is packed, and of a zip with several the one that is named', async () => {
  const plain = await pictureOf(await ask('file=knob.gcode'))
  const packed = await ask('file=knob.gcode', gzipSync(knob))
  expect((await pictureOf(packed)).equals(plain)).toBe(true)
  const zip = zipOf([
    { name: 'a.gcode', bytes: knob },
    { name: 'b.gcode', bytes: bytesOf('hinge-pin.gcode') },
  ])
  writeFileSync(join(folder, 'two.zip'), zip)
  const pin = await pictureOf(await ask('file=two.zip&member=b.gcode', zip))
  expect(pin.equals(drawn('svg', 'read', 'two.zip', '--member', 'b.gcode'))).toBe(true)
  expect(pin.toString()).toContain('two.zip, b.gcode')
  const [missing, names] = await refusedAs(await ask('file=two.zip', zip))
  expect(missing).toBe('member_missing')
  expect(names).toMatch(/a\.gcode\n {2}b\.gcode$/)
  expect(await codeOf(await ask('member=c.gcode', zip))).toBe('member_unknown')
})

test.each([
  ['kind=jpg', undefined, 'picture_kind_unknown'],
  ['layer=top', undefined, 'layer_malformed'],
  ['layer=0', undefined, 'layer_malformed'],
  ['layer=61', undefined, 'layer_out_of_range'],
  ['e_unit=inch', undefined, 'e_unit_unknown'],
  ['diameter_mm=thin', undefined, 'diameter_out_of_range'],
  ['', 'not a print', 'no_machine_code'],
  ['', 'G90\nM83\nG1 X1 F600\nG1 E5\n', 'nothing_to_picture'],
] as const)('%s of %j: %s', async (query, body, code) => {
  expect(await codeOf(await ask(query, body))).toBe(code)
})

test('what is called by a hostile name shows it as text, and may do nothing in a browser', async () => {
  const hostile = '"><svg onload=alert(1)>&\u202Egnp.gcode'
  const response = await ask(`file=C:%5C${encodeURIComponent(hostile)}`)
  const { headers } = response
  const svg = (await pictureOf(response)).toString()
  expect(svg).toContain('"&gt;&lt;svg onload=alert(1)&gt;&amp;\uFFFDgnp.gcode')
  expect(svg.match(/<svg/g)).toHaveLength(1)
  expect(svg).not.toContain('\u202E')
  expect(headers.get('content-security-policy')).toBe(
    "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox",
  )
  expect(headers.get('x-content-type-options')).toBe('nosniff')
  expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
  expect(headers.get('cache-control')).toBe('no-store')
})

test('what is refused is under the policy of the app', async () => {
  const { headers } = await ask('layer=0')
  expect(headers.get('content-security-policy')).toContain("default-src 'self'")
})

test('others are answered while a picture is drawn', async () => {
  // So many beads across each other that drawing them takes longer than reading them.
  const ways = Array.from({ length: 400 }, (_, k) => `G1 X${(k * 37) % 200} Y${(k * 61) % 200} E9`)
  const layer = ['G90', 'M83', 'G1 Z0.2 F600', ...ways, ''].join('\n')
  let isDrawn = false
  const drawing = ask('kind=png&layer=1', layer).finally(() => (isDrawn = true))
  const waits: number[] = []
  let from = performance.now()
  // oxlint-disable-next-line no-unmodified-loop-condition -- it is, when the answer comes
  while (!isDrawn) {
    // oxlint-disable-next-line no-await-in-loop -- one after another for as long as it is drawn
    expect((await server.ask('GET', '/healthz')).status).toBe(200)
    // oxlint-disable-next-line no-await-in-loop -- as above
    await new Promise((resolve) => setTimeout(resolve, 1))
    waits.push(performance.now() - from)
    from = performance.now()
  }
  expect((await drawing).status).toBe(200)
  const whole = waits.reduce((sum, wait) => sum + wait, 0)
  // Drawn in the server's own thread one wait would be most of it.
  expect(Math.max(...waits)).toBeLessThan(whole / 2)
})

test('what was sent is cleared away, drawn or not, and so is a copy when it has been fetched', async () => {
  const before = process.env['TMPDIR']
  const own = mkdtempSync(join(tmpdir(), 'reelreckon-test-'))
  process.env['TMPDIR'] = own
  try {
    expect((await ask('')).status).toBe(200)
    expect((await ask('', 'not a print')).status).toBe(422)
    expect(readdirSync(own)).toEqual([])
    const copy = await server.app.fetch(sent('/api/paused-copies?after=5&firmware=host'))
    expect(readdirSync(own)).toHaveLength(1)
    await copy.text()
    await expect.poll(() => readdirSync(own)).toEqual([])
  } finally {
    if (before === undefined) delete process.env['TMPDIR']
    else process.env['TMPDIR'] = before
  }
})

test('a few are taken in at once, of whatever kind; the next is told to wait', async () => {
  const { app } = server
  const paths = ['pictures?', 'pictures?layer=3', 'prints?', 'pictures?kind=png']
  const asked = [...paths, 'paused-copies?after=5&firmware=host']
  const answers = await Promise.all(asked.map(async (path) => app.fetch(sent(`/api/${path}`))))
  expect(answers.map(({ status }) => status).toSorted((a, b) => a - b)).toEqual([
    200, 200, 200, 200, 503,
  ])
  expect(await codeOf(answers.find(({ status }) => status === 503)!)).toBe('busy')
  expect((await app.fetch(sent('/api/pictures'))).status).toBe(200)
})
