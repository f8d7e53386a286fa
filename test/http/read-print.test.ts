import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync, strToU8, zipSync } from 'fflate'
import { expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import { readingOfUpload } from '../../src/cli/served-reading.ts'
import {
  printsJson,
  problemJson,
  readJson,
  readPrintJson,
  shelfCheckJson,
} from '../../src/contract/index.ts'
import { folderOfPrints, runCli } from '../cli/run-cli.ts'
import { type Served, served } from './served.ts'

// With a line more it is none of those that the bench has kept.
const print = `${demoPrints.find(({ fileName }) => fileName === 'knob.gcode')!.write()}; sent\n`

const send = (
  { app }: Served,
  query: string,
  body: Uint8Array | string = print,
  headers: Readonly<Record<string, string>> = {},
): Promise<Response> =>
  Promise.resolve(
    app.fetch(
      new Request(`http://localhost/api/prints?${query}`, {
        method: 'POST',
        headers: { 'content-type': 'application/octet-stream', ...headers },
        body: body as BodyInit,
      }),
    ),
  )

const toldOf = async (response: Response) => {
  expect(response.status).toBe(200)
  const told = readJson.parse(await response.json())
  return 'prints' in told ? told.prints : [told]
}

const codeOf = async (response: Response): Promise<string> =>
  problemJson.parse(await response.json()).code

test('a print that is sent is read; kept, it can be checked', async () => {
  const server = await served()
  const [read] = await toldOf(await send(server, 'file=C:%5Cprints%5Cknob.gcode'))
  expect(read).toMatchObject({ file: 'knob.gcode', container: 'plain', bytes: print.length })
  expect(read!.layers.count).toBeGreaterThan(10)
  expect(read!.time).not.toBeNull()
  const check = async (): Promise<Response> =>
    server.ask('POST', '/api/checks/shelf', { print: read!.sha256 })
  expect(await codeOf(await check())).toBe('print_unknown')
  const [kept] = await toldOf(await send(server, 'file=knob.gcode&keep=true'))
  expect(kept).toEqual(read)
  const checked = shelfCheckJson.parse(await (await check()).json())
  expect(checked.print).toMatchObject({ file: 'knob.gcode', sha256: read!.sha256 })
  expect(checked.tools[0]!.needed_mm).toBeCloseTo(read!.tools[0]!.peak_mm, 6)
})

test('what the file leaves open is taken as it is told', async () => {
  const server = await served()
  const [lengths] = await toldOf(await send(server, ''))
  const [volumes] = await toldOf(await send(server, 'e_unit=mm3&diameter_mm=2.85&firmware=host'))
  const area = (Math.PI / 4) * 2.85 ** 2
  expect(volumes!.tools[0]!.peak_mm).toBeCloseTo(lengths!.tools[0]!.peak_mm / area, 0)
  const [relative] = await toldOf(await send(server, 'e_mode=relative'))
  expect(relative!.tools[0]!.peak_mm).not.toBeCloseTo(lengths!.tools[0]!.peak_mm, 0)
})

test('it is told as `read` is: units as a person writes them, and what makes volume and mass of length', async () => {
  const server = await served()
  const [plain] = await toldOf(await send(server, 'e_unit=mm3'))
  for (const unit of ['mm³', 'MM3', 'mm^3']) {
    // oxlint-disable-next-line no-await-in-loop -- a few are read at once at most
    const [same] = await toldOf(await send(server, `e_unit=${encodeURIComponent(unit)}`))
    expect(same).toEqual(plain)
  }
  const folder = folderOfPrints()
  writeFileSync(join(folder, 'sent.gcode'), print)
  const typed = ['--material', 'PLA', '--density', '1.25', '--diameter', '2.85mm']
  const cli = runCli(['read', 'sent.gcode', ...typed, '--json'], { cwd: folder })
  const told = 'file=sent.gcode&material=PLA&density_g_per_cm3=1.25&diameter_mm=2.85'
  const [read] = await toldOf(await send(server, told))
  expect(read).toEqual(readPrintJson.parse(JSON.parse(cli.out)))
  expect(read!.tools[0]!.nominal_mass_g!.value).toBeGreaterThan(0)
  const [other] = await toldOf(await send(server, 'made_for_mm=2.85'))
  const made = runCli(['read', 'sent.gcode', '--made-for', '2.85mm', '--json'], { cwd: folder })
  expect({ ...other, file: 'sent.gcode' }).toEqual(readPrintJson.parse(JSON.parse(made.out)))
})

test('one that is packed, and each of several', async () => {
  const server = await served()
  const plain = await toldOf(await send(server, ''))
  const [packed] = await toldOf(await send(server, '', gzipSync(strToU8(print))))
  expect(packed).toMatchObject({ container: 'gzip', tools: plain[0]!.tools })
  const zip = zipSync({ 'one.gcode': strToU8(print), 'two.gcode': strToU8(print) })
  const several = await toldOf(await send(server, 'keep=true', zip))
  expect(several.map(({ member }) => member)).toEqual(['one.gcode', 'two.gcode'])
  const ids = several.map(({ sha256, member }) => `${sha256}/${member}`)
  const kept = await server.store.prints()
  expect(kept.map(({ id }) => id)).toEqual(expect.arrayContaining(ids))
})

test('what can not be read, or is told wrongly, is refused, and nothing is kept', async () => {
  const server = await served()
  const before = (await server.store.prints()).length
  const codes = await Promise.all(
    [
      ['keep=true', 'not a print'],
      ['keep=true&e_unit=inch'],
      ['keep=true&e_mode=both'],
      ['keep=true&diameter_mm=175'],
      ['keep=true&diameter_mm=thin'],
      ['keep=true&made_for_mm=0'],
      ['keep=true&density_g_per_cm3=1240'],
      ['keep=true&material=unobtainium'],
    ].map(async ([query, body]) => codeOf(await send(server, query!, body))),
  )
  expect(codes).toEqual([
    'no_machine_code',
    'e_unit_unknown',
    'e_mode_unknown',
    'diameter_out_of_range',
    'diameter_out_of_range',
    'diameter_out_of_range',
    'density_out_of_range',
    'material_unknown',
  ])
  expect(await codeOf(await send(server, 'firmware=abacus'))).toBe('firmware_unknown')
  const asJson = await server.ask('POST', '/api/prints', {})
  expect(asJson.status).toBe(415)
  const other = await send(server, 'keep=true', print, { 'reelreckon-ledger': 'another' })
  expect(await codeOf(other)).toBe('ledger_exchanged')
  const foreign = await send(server, 'keep=true', print, {
    origin: 'http://elsewhere.test',
    'sec-fetch-site': 'cross-site',
  })
  expect(foreign.status).toBe(403)
  expect(await server.store.prints()).toHaveLength(before)
})

test('a ledger that took the place of the one it was sent to gets nothing', async () => {
  const before = (await (await served()).store.prints()).length
  // While it is read somebody puts the demo shelf in its place.
  const server: Served = await served({
    reading: async (...asked) => {
      const read = await readingOfUpload(...asked)
      expect((await server.ask('POST', '/api/demo')).status).toBe(200)
      return read
    },
  })
  expect(await codeOf(await send(server, 'keep=true'))).toBe('ledger_exchanged')
  const { prints } = printsJson.parse(await (await server.ask('GET', '/api/prints')).json())
  expect(prints.map(({ file }) => file)).not.toContain('a print that was sent')
  expect(await server.store.prints()).toHaveLength(before)
})

test('others are answered while a print is read', async () => {
  const server = await served()
  let isRead = false
  const reading = send(server, '', print.repeat(40)).then((response) => {
    isRead = true
    return response
  })
  let answered = 0
  // oxlint-disable-next-line no-unmodified-loop-condition -- it is, when the answer comes
  while (!isRead) {
    // oxlint-disable-next-line no-await-in-loop -- one after another for as long as it is read
    await new Promise((resolve) => setTimeout(resolve, 1))
    // oxlint-disable-next-line no-await-in-loop -- as above
    if ((await server.ask('GET', '/readyz')).status === 200) answered++
  }
  // Read in the server's own thread it would be one or two.
  expect(answered).toBeGreaterThan(10)
  expect((await reading).status).toBe(200)
})

test('the printer that is named plans the times; a print is kept as every family reads it', async () => {
  const server = await served()
  const slow = { name: 'slow', firmware: 'host', motion: { max_feed_mm_per_s: [20, 20, 5, 20] } }
  expect((await server.ask('POST', '/api/rows/printer', slow)).status).toBe(201)
  const read = async (query: string) =>
    readPrintJson.parse(await (await send(server, query)).json())
  const [usual, slower] = [await read(''), await read('printer=slow&keep=true')]
  expect(slower.time!.planned_s).toBeGreaterThan(1.2 * usual.time!.planned_s)
  expect(slower.time!.family).toBe('host')
  const row = await server.store.print(slower.sha256)
  expect(row!.time!.planned_s).toBeCloseTo(slower.time!.planned_s, 0)
  expect(row!.families.flatMap(({ families }) => families)).toContain('community')
  expect(await codeOf(await send(server, 'printer=a%20kettle'))).toBe('printer_unknown')
})
