import { expect, test } from 'vitest'
import { runMatch } from '../../src/cli/run-match.ts'
import { matchJson, planJson, problemJson, recordedJson } from '../../src/contract/index.ts'
import { DomainError } from '../../src/units/index.ts'
import { served } from './served.ts'

test('a plan is looked for, kept, and shown', async () => {
  const { ask } = await served()
  const found = await ask('POST', '/api/matches', { confidence: 0.9, limit_s: 1 })
  expect(found.status).toBe(200)
  const plan = matchJson.parse(await found.json())
  expect(plan.confidence).toBe(0.9)
  expect(plan.kept).toBe(false)
  const choices = plan.copies.flatMap(({ waiting, copy, printer, duties }) =>
    duties.map(({ tool, reel }) => ({ waiting, copy, tool, reel, printer })),
  )
  expect(choices.length).toBeGreaterThan(10)
  expect(planJson.parse(await (await ask('GET', '/api/plan')).json()).kept_at).toBe(null)
  const kept = await ask('PUT', '/api/plan', { choices })
  expect(recordedJson.parse(await kept.json()).recorded).toBe(true)
  expect(planJson.parse(await (await ask('GET', '/api/plan')).json()).choices).toEqual(choices)
})

test('progress is told as events, the answer last', async () => {
  const { ask } = await served()
  const told = await ask('POST', '/api/matches', { limit_s: 1 }, { accept: 'text/event-stream' })
  expect(told.headers.get('content-type')).toBe('text/event-stream')
  const events = (await told.text()).trim().split('\n\n')
  expect(events[0]).toMatch(/^event: progress\n/)
  const [, data = ''] = /^event: answer\ndata: (.*)$/.exec(events.at(-1) ?? '') ?? []
  expect(matchJson.parse(JSON.parse(data)).copies.length).toBeGreaterThan(5)
})

test('what can not be matched is said', async () => {
  const { ask } = await served({ isEmpty: true })
  const refused = await ask('POST', '/api/matches', {})
  expect(problemJson.parse(await refused.json()).code).toBe('nothing_waits')
  const events = await ask('POST', '/api/matches', {}, { accept: 'text/event-stream' })
  expect(await events.text()).toContain('event: problem\ndata: {')
  const wrong = await ask('POST', '/api/matches', { confidence: 2 })
  expect(problemJson.parse(await wrong.json()).code).toBe('request_invalid')
})

test('a search is ended by its name with the best plan so far', async () => {
  const begun = Promise.withResolvers<void>()
  const { ask } = await served({
    match: async (slate, run) => {
      begun.resolve()
      if (run.signal?.aborted !== true) {
        await new Promise((resolve) => {
          run.signal?.addEventListener('abort', resolve)
        })
      }
      return runMatch(slate, run)
    },
  })
  const stream = { accept: 'text/event-stream' }
  const asked = ask('POST', '/api/matches', { search: 'mine' }, stream)
  await begun.promise
  expect(await (await ask('DELETE', '/api/matches/mine')).json()).toEqual({ ended: true })
  const [, data = ''] = /event: answer\ndata: (.*)/.exec(await (await asked).text()) ?? []
  const plan = matchJson.parse(JSON.parse(data))
  expect([plan.ended, plan.proven]).toEqual(['cancelled', false])
  expect(plan.copies.some(({ printer }) => printer !== null)).toBe(true)
  const gone = await ask('DELETE', '/api/matches/mine')
  expect(gone.status).toBe(404)
  expect(problemJson.parse(await gone.json()).code).toBe('search_not_found')
})

test('whoever hangs up ends the search, and nothing is said to them any more', async () => {
  const begun = Promise.withResolvers<(done: number) => void>()
  const ended = Promise.withResolvers<void>()
  const { ask } = await served({
    match: async (slate, run) => {
      begun.resolve(run.progress ?? (() => undefined))
      await new Promise((resolve) => {
        run.signal?.addEventListener('abort', resolve)
      })
      const plan = await runMatch(slate, run)
      ended.resolve()
      return plan
    },
  })
  const { body } = await ask('POST', '/api/matches', {}, { accept: 'text/event-stream' })
  const say = await begun.promise
  say(0.1)
  await body?.cancel()
  // As a thread says it, where whatever is thrown ends the server.
  expect(() => say(0.2)).not.toThrow()
  await ended.promise
})

test('what a search throws is said as a problem', async () => {
  const { ask } = await served({
    match: () => Promise.reject(new DomainError('no_such_thing', 'there is none')),
  })
  const told = await ask('POST', '/api/matches', {}, { accept: 'text/event-stream' })
  const [, data = ''] = /^event: problem\ndata: (.*)$/m.exec(await told.text()) ?? []
  expect(problemJson.parse(JSON.parse(data)).code).toBe('no_such_thing')
})
