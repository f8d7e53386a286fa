import { describe, expect, it } from 'vitest'
import { explainChoice, type Matcher, matchSlate, remediesFor } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { measured } from '../../src/units/index.ts'
import { copyOf, layered, reelOf, slateOf } from './told-slate.ts'

const options = { solver: highsSolver() }
const match: Matcher = (slate) => matchSlate(slate, options)

describe('why this reel', () => {
  it('says what would have become worse with the fullest', async () => {
    const reels = [reelOf('new', 1000, { sealed: true }), reelOf('remnant', 130)]
    const slate = slateOf([copyOf('hook', 125, ['new', 'remnant'])], reels)
    const plan = await match(slate)
    const why = await explainChoice(match, slate, plan, { copy: 'hook', tool: 0 })
    expect(why).toMatchObject({ reels: ['remnant'], other: 'new' })
    expect(why.differences[0]).toEqual({ level: 'opened', by: 1 })
  })

  it('heeds what else the reels are asked to do', async () => {
    const reels = [reelOf('full', 300), reelOf('half', 160)]
    const both = ['full', 'half']
    const slate = slateOf([copyOf('hook', 150, both), copyOf('crate', 250, both)], reels)
    const plan = await match(slate)
    const why = await explainChoice(match, slate, plan, { copy: 'hook', tool: 0 })
    expect(why).toMatchObject({ reels: ['half'], other: 'full' })
    // With the hook on it the full reel is no more enough for the crate.
    expect(why.differences[0]).toEqual({ level: 'unserved', importance: 0, by: 1 })
  })

  it('names no other where none would do', async () => {
    const slate = slateOf([copyOf('hook', 100, ['r', 's'])], [reelOf('r', 150), reelOf('s', 50)])
    const plan = await match(slate)
    const why = await explainChoice(match, slate, plan, { copy: 'hook', tool: 0 })
    expect(why).toMatchObject({ reels: ['r'], other: null, differences: [] })
  })

  it('refuses a copy that is not served', async () => {
    const slate = slateOf([copyOf('crate', 200, ['r'])], [reelOf('r', 150)])
    const plan = await match(slate)
    await expect(explainChoice(match, slate, plan, { copy: 'crate', tool: 0 })).rejects.toThrow(
      /does not serve/,
    )
  })
})

describe('what would help', () => {
  it('a change, another colour, a new reel: in this order, each tried', async () => {
    const copy = copyOf('crate', 200, ['r', 's'], {
      tasks: [
        {
          tool: 0,
          draw: [layered(200, 20)],
          fits: ['r', 's'],
          inAnyColour: ['r', 's', 'other'],
        },
      ],
    })
    const reels = [reelOf('r', 130), reelOf('s', 130), reelOf('other', 400)]
    const slate = slateOf([copy], reels)
    const plan = await match(slate)
    expect(plan.unserved).toHaveLength(1)
    const offers = [{ reel: reelOf('bought', 1000, { sealed: true }), tools: [0] }]
    const found = await remediesFor(match, slate, plan, 'crate', offers)
    expect(found.map(({ kind }) => kind)).toEqual(['change', 'any_colour', 'new_reel'])
    expect(found[1]).toMatchObject({ reels: ['other'] })
    expect(found[2]).toMatchObject({ reel: 'bought' })
  })

  it('a measurement, where the reel would do on average', async () => {
    const slate = slateOf([copyOf('crate', 200, ['r'])], [reelOf('r', measured(215, 15))])
    const plan = await match(slate)
    const found = await remediesFor(match, slate, plan, 'crate')
    expect(found).toHaveLength(1)
    expect(found[0]).toMatchObject({ kind: 'measure', reel: 'r' })
    // Φ(1)
    expect(found[0]!.kind === 'measure' && found[0]!.chance).toBeCloseTo(0.8413, 3)
  })

  it('nothing that would leave out a print as important', async () => {
    const one = copyOf('one', 100, ['r'])
    const other = copyOf('other', 100, ['s'], {
      tasks: [{ tool: 0, draw: [layered(100, 4)], fits: ['s'], inAnyColour: ['r', 's'] }],
    })
    const slate = slateOf([one, other], [reelOf('r', 120), reelOf('s', 20)])
    const plan = await match(slate)
    expect(await remediesFor(match, slate, plan, 'other')).toEqual([])
  })
})

describe('what if', () => {
  const reels = [reelOf('r', 300), reelOf('s', 300)]
  const slate = slateOf([copyOf('hook', 100, ['r', 's']), copyOf('cleat', 120, ['r', 's'])], reels)

  it('a new print changes as few choices as can be', async () => {
    const earlier = [
      { copy: 'hook', tool: 0, reel: 's', printer: 'a' },
      { copy: 'cleat', tool: 0, reel: 'r', printer: 'a' },
    ]
    const more = { ...slate, copies: [...slate.copies, copyOf('crate', 150, ['r', 's'])], earlier }
    const plan = await match(more)
    const reelOfCopy = (id: string) => plan.served.find(({ copy }) => copy === id)!.duties[0]!.reel
    expect([reelOfCopy('hook'), reelOfCopy('cleat')]).toEqual(['s', 'r'])
    expect(plan.levels.find(({ level }) => level === 'different')!.value).toBe(0)
  })

  it('a higher confidence asks for more on the reel', async () => {
    const doubtful = slateOf([copyOf('hook', 100, ['r'])], [reelOf('r', measured(120, 10))])
    const served = async (confidence: number) =>
      (await match({ ...doubtful, confidence })).served.length
    // Φ(2) = 0.977
    expect([await served(0.97), await served(0.98)]).toEqual([1, 0])
  })
})

it('cancelled, it returns a plan that holds', async () => {
  const slate = slateOf([copyOf('hook', 100, ['r'])], [reelOf('r', 300)])
  const plan = await matchSlate(slate, { ...options, isCancelled: () => true })
  expect(plan).toMatchObject({ ended: 'cancelled', served: [{ copy: 'hook' }] })
})
