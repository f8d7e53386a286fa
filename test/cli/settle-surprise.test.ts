import { PassThrough } from 'node:stream'
import { describe, expect, test } from 'vitest'
import type { OpenLedger } from '../../src/cli/open-ledger.ts'
import { settleSurprise } from '../../src/cli/settle-surprise.ts'
import { type Talk, talkOver } from '../../src/cli/talk.ts'
import { weighing } from '../../src/cli/weigh-command.ts'
import { addRow, recordDraw, weigh } from '../../src/service/index.ts'
import { addKittiwake, bench, valueOf } from '../shelf-bench.ts'

/** A person who types these lines, and what was put to them. */
const person = (lines: readonly string[]) => {
  const input = new PassThrough()
  const output = new PassThrough()
  let shown = ''
  output.on('data', (text: Buffer) => (shown += text.toString('utf8')))
  input.end(lines.map((line) => `${line}\n`).join(''))
  return { talk: talkOver(input, output), shown: () => shown }
}

describe('what is typed', () => {
  test.each([
    [['accept'], { kind: 'accept' }],
    [['A'], { kind: 'accept' }],
    [['drop'], { kind: 'drop' }],
    [[''], { kind: 'drop' }],
    [[], { kind: 'drop' }],
    [['422 g'], { kind: 'mass', typed: '422 g' }],
    [['422'], { kind: 'mass', typed: '422' }],
    // Five figures are a mass, though they may make an id.
    [['22226'], { kind: 'mass', typed: '22226' }],
    [['k7rmy'], { kind: 'reel', id: 'K7RMY' }],
    [['k7rm4', 'what?', '422 ml', 'k7rmy'], { kind: 'reel', id: 'K7RMY' }],
  ] as const)('%j', async (lines, settled) => {
    expect(await settleSurprise(person(lines).talk)).toEqual(settled)
  })

  test('what is not understood is told, and asked again', async () => {
    const { talk, shown } = person(['k7rm4', '422 ml', 'drop'])
    await settleSurprise(talk)
    expect(shown()).toMatch(/slip in it/)
    expect(shown()).toMatch(/"ml" is not a unit of mass/)
    expect(shown().match(/accept, drop/g)).toHaveLength(3)
  })
})

const paper = { colour: 'none', unicode: true } as const
const ready = async (): Promise<{ ledger: OpenLedger; reel: string; other: string }> => {
  const ledger = await bench()
  const { reels } = await addKittiwake(ledger, { count: 2 })
  const [reel, other] = reels as [string, string]
  valueOf(await weigh(ledger, { reel, weighing: { reading_g: 1262 } }))
  return { ledger, reel, other }
}

describe('weigh, with somebody there', () => {
  test('the right figure is recorded', async () => {
    const { ledger, reel } = await ready()
    const { talk, shown } = person(['1263g'])
    const { text, exit } = await weighing(paper, ledger, [reel, '1345g'], {}, talk)
    expect(shown()).toContain('83 g more than expected')
    expect(exit).toBe(0)
    expect(text).toContain('RECORDED')
    const facts = await ledger.store.facts({ reel })
    expect(facts.at(-1)).toMatchObject({ weighing: { reading_g: 1263 } })
  })

  test('the right reel is recorded', async () => {
    const { ledger, reel, other } = await ready()
    const { exit } = await weighing(paper, ledger, [reel, '1290g'], {}, person([other]).talk)
    expect(exit).toBe(0)
    expect((await ledger.store.facts({ reel: other })).at(-1)?.kind).toBe('weighed')
  })

  test('a right figure that surprises as well is asked about again', async () => {
    const { ledger, reel } = await ready()
    const { talk, shown } = person(['1400g', 'accept'])
    const { text } = await weighing(paper, ledger, [reel, '1345g'], {}, talk)
    expect(shown().match(/NOT RECORDED/g)).toHaveLength(2)
    expect(text).toContain('accepted')
  })

  test('a surprise that became another while it was asked about is asked about again', async () => {
    const { ledger, reel } = await ready()
    valueOf(await addRow(ledger, 'printer', { name: 'left' }))
    const { talk, shown } = person(['accept', 'drop'])
    const meanwhile: Talk = {
      ...talk,
      ask: async (question) => {
        const typed = await talk.ask(question)
        if (typed !== 'accept') return typed
        const draw = { length_mm: 100_000, reels: [{ reel }] }
        valueOf(await recordDraw(ledger, draw))
        return typed
      },
    }
    const { text } = await weighing(paper, ledger, [reel, '1345g'], {}, meanwhile)
    expect(text).toBe('Dropped: nothing was recorded.\n')
    expect(shown()).toContain('83 g more than expected')
    expect(shown().match(/NOT RECORDED/g)).toHaveLength(2)
    expect((await ledger.store.facts({ reel })).at(-1)?.kind).toBe('drew')
  })

  test('what others write that does not bear on it is no reason to ask again', async () => {
    const { ledger, reel } = await ready()
    const { talk, shown } = person(['accept'])
    const meanwhile: Talk = {
      ...talk,
      ask: async (question) => {
        valueOf(await addRow(ledger, 'printer', { name: 'left' }))
        return talk.ask(question)
      },
    }
    await weighing(paper, ledger, [reel, '1345g'], {}, meanwhile)
    expect(shown().match(/NOT RECORDED/g)).toHaveLength(1)
  })

  test.each([[['drop']], [[]]])('dropped by %j: nothing is recorded', async (lines) => {
    const { ledger, reel } = await ready()
    const before = await ledger.store.facts()
    const { text, exit } = await weighing(paper, ledger, [reel, '1345g'], {}, person(lines).talk)
    expect([text, exit]).toEqual(['Dropped: nothing was recorded.\n', 10])
    expect(await ledger.store.facts()).toEqual(before)
  })
})
