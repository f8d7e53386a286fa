import { gzipSync } from 'node:zlib'
import { expect, test } from 'vitest'
import { demoPrints } from '../../demo/prints/index.ts'
import { pausedCopyJson, problemJson } from '../../src/contract/index.ts'
import { zipOf } from '../zip-of.ts'
import { served } from './served.ts'

const print = demoPrints.find(({ fileName }) => fileName === 'tackle-box.gcode')!.write()

const ask = async (
  query: string,
  body: Uint8Array | string = print,
  path = 'paused-copies',
): Promise<Response> => {
  const { app, ask: tell } = await served()
  await tell('POST', '/api/rows/printer', { name: 'the Tern', firmware: 'community' })
  return app.fetch(
    new Request(`http://localhost/api/${path}?${query}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: body as BodyInit,
    }),
  )
}

const codeOf = async (response: Response): Promise<string> =>
  problemJson.parse(await response.json()).code

test('a copy comes with its stops, and nothing else is changed', async () => {
  const response = await ask('after=237,20&firmware=host&note=reel%20K7RMY')
  expect(response.status).toBe(200)
  const copy = await response.text()
  const lines = copy.split('\n')
  const stops = lines.filter((line) => line.startsWith('PAUSE'))
  expect(stops).toEqual([
    'PAUSE ; reelreckon: after layer 20, reel K7RMY',
    'PAUSE ; reelreckon: after layer 237, reel K7RMY',
  ])
  expect(lines.filter((line) => !line.startsWith('PAUSE')).join('\n')).toBe(print)
})

test('what was packed is answered unpacked', async () => {
  const response = await ask('after=20&firmware=textfile', gzipSync(print))
  expect(response.status).toBe(200)
  expect((await response.text()).length).toBe(
    print.length + 'M600 ; reelreckon: after layer 20\n'.length,
  )
})

test('what is to be known of a copy is told without it, for the printer that is named', async () => {
  const asked = 'after=20,237&printer=the%20Tern&file=box.gcode&note=red'
  const answer = await ask(asked, print, 'paused-copies/told')
  const told = pausedCopyJson.parse(await answer.json())
  const copy = await ask(asked)
  expect(copy.headers.get('etag')).toBe(`"${told.sha256}"`)
  const lines = (await copy.text()).split('\n')
  expect(told.pauses.map(({ after_layer }) => after_layer)).toEqual([20, 237])
  for (const { line, text } of told.pauses) expect(lines[line - 1]).toBe(text)
  expect(told).toMatchObject({ file: 'box.gcode', firmware: 'community' })
  expect(told.caution).toContain('hot')
  expect(await codeOf(await ask('after=2&printer=a%20kettle'))).toBe('printer_unknown')
})

test('what a file leaves open can be told', async () => {
  const body = 'G1 Z0.2\nG1 X10 E5\nG1 Z0.4\nG1 X0 E10\nG1 Z0.6\nG1 X10 E15\n'
  const drawn = async (mode: string): Promise<unknown> =>
    pausedCopyJson.parse(
      await (await ask(`after=2&firmware=host&e_mode=${mode}`, body, 'paused-copies/told')).json(),
    ).pauses[0]?.drawn_mm
  expect(await drawn('relative')).toEqual([{ tool: 0, draw_mm: 15 }])
  expect(await drawn('absolute')).toEqual([{ tool: 0, draw_mm: 10 }])
})

test('what can not be done is said', async () => {
  expect(await codeOf(await ask('after=20'))).toBe('firmware_needed')
  expect(await codeOf(await ask('firmware=host'))).toBe('layer_malformed')
  expect(await codeOf(await ask('after=0&firmware=host'))).toBe('layer_malformed')
  expect(await codeOf(await ask('after=270&firmware=host'))).toBe('layer_out_of_range')
  expect(await codeOf(await ask('after=2&firmware=host&for=fun'))).toBe('purpose_unknown')
  expect(await codeOf(await ask('after=2&firmware=host', 'not a print'))).toBe('no_machine_code')
  const zip = zipOf(['a.gcode', 'b.gcode'].map((name) => ({ name, bytes: Buffer.from(print) })))
  const several = problemJson.parse(await (await ask('after=2&firmware=host', zip)).json())
  expect(several.code).toBe('member_missing')
  expect(several.detail).not.toContain('--')
})
