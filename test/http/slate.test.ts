import { expect, test } from 'vitest'
import { problemJson, recordedJson, slateJson } from '../../src/contract/index.ts'
import { addKittiwake, smallPrint, valueOf } from '../shelf-bench.ts'
import { served } from './served.ts'

const noLuck = {
  now: () => Date.UTC(2026, 2, 1, 12),
  randomByte: () => Math.floor(Math.random() * 256),
}

test('a print is put on the slate, changed, printed and gone', async () => {
  const { ask, store } = await served({ isEmpty: true })
  const { reels } = await addKittiwake({ store, ...noLuck })
  await ask('POST', '/api/rows/printer', { name: 'left' })
  const print = smallPrint()
  valueOf(await store.append([print]))
  const list = async () => slateJson.parse(await (await ask('GET', '/api/slate')).json()).waiting
  expect(await list()).toEqual([])

  const told = { print: print.id, copies: 2, tools: [{ tool: 0, material: 'PLA' }] }
  const added = await ask('POST', '/api/slate', told)
  expect(added.status).toBe(201)
  const [row] = recordedJson.parse(await added.json()).rows
  expect(row).toMatchObject({ kind: 'waiting', name: 'small', copies: 2 })
  expect((await list())[0]).toMatchObject({ waits: 2, file: 'small.gcode', layers: 3 })

  const changed = await ask('PATCH', `/api/slate/${row!.id}`, { due: '2026-03-09T12:00:00.000Z' })
  expect(changed.status).toBe(200)
  expect((await list())[0]?.row.due).toBe('2026-03-09T12:00:00.000Z')

  const drawn = await ask('POST', '/api/draws', { print: print.id, reels: [{ reel: reels[0] }] })
  expect(recordedJson.parse(await drawn.json()).notes.join()).toContain('1 waits still')
  await ask('PATCH', `/api/slate/small`, { off: true })
  expect(await list()).toEqual([])
  // What was taken off can be found, and put back.
  for (const query of ['all=true', 'waiting=small', `waiting=${row!.id}`]) {
    // oxlint-disable-next-line no-await-in-loop -- each by itself
    const found = slateJson.parse(await (await ask('GET', `/api/slate?${query}`)).json()).waiting
    expect(found).toMatchObject([{ row: { id: row!.id, off: true }, waits: 0 }])
  }
  expect(await code(await ask('GET', '/api/slate?waiting=nothing'))).toBe('waiting_unknown')
  await ask('PATCH', `/api/slate/small`, { off: null })
  expect(await list()).toHaveLength(1)
})

const code = async (response: Response): Promise<string> =>
  problemJson.parse(await response.json()).code

test('what is not understood is said', async () => {
  const { ask } = await served()
  const never = 'f'.repeat(64)
  expect(await code(await ask('POST', '/api/slate', { print: never }))).toBe('print_unknown')
  expect(await code(await ask('POST', '/api/slate', { print: 'short' }))).toBe('request_invalid')
  expect(await code(await ask('PATCH', '/api/slate/nothing', { copies: 2 }))).toBe(
    'waiting_unknown',
  )
})
