import { describe, expect, it } from 'vitest'
import {
  explainChoice,
  type MatchCopy,
  type Matcher,
  type MatchSlate,
  matchSlate,
  type PartSolver,
  partSolver,
  remediesFor,
} from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
import { measured } from '../../src/units/index.ts'
import { copyOf, exactPrinter, layered, reelOf, slateOf } from './told-slate.ts'

const options = { solver: highsSolver() }
const match: Matcher = (slate) => matchSlate(slate, options)

const reasonOf = async (slate: MatchSlate, copy: string) => {
  const plan = await match(slate)
  const { duties } = plan.served.find((each) => each.copy === copy)!
  return explainChoice(slate, plan)(duties[0]!)
}

const tasksFrom = (fits: readonly string[]) =>
  [0, 1].map((tool) => ({ tool, draw: [{ weight: 1, peak_mm: 50_000 }], fits }))

describe('why this reel', () => {
  const both = ['full', 'half']

  it('with the fullest one would be late, for it is on another printer', async () => {
    const due = { duration_h: 2, due_h: 3 }
    const slate = slateOf(
      [copyOf('cleat', 60, ['full'], due), copyOf('hook', 60, both, { ...due, printers: ['b'] })],
      [reelOf('full', 900), reelOf('half', 160)],
    )
    const late = { other: 'full', level: 'late', by: 1 }
    expect(await reasonOf(slate, 'hook')).toEqual({ kind: 'worse', ...late })
    // Turned about: where it has the fullest the other would be better.
    const reels = [reelOf('full', 900), reelOf('half', 1000)]
    const plan = await match({ ...slate, reels, locks: [{ copy: 'hook', tool: 0, reel: 'full' }] })
    const why = explainChoice({ ...slate, reels }, plan)
    expect(why(plan.served.find(({ copy }) => copy === 'hook')!.duties[0]!)).toEqual({
      kind: 'better',
      ...late,
      other: 'half',
    })
  })

  it('the fullest would have to be opened', async () => {
    const reels = [reelOf('full', 1000, { sealed: true }), reelOf('half', 130)]
    const why = await reasonOf(slateOf([copyOf('hook', 75, both)], reels), 'hook')
    expect(why).toEqual({ kind: 'worse', other: 'full', level: 'opened', by: 1 })
  })

  it('the fullest would end as a stub', async () => {
    // 130 − 100 and 500 − 100: only one is too little to be useful
    const reels = [reelOf('full', 130), reelOf('half', 101)]
    const why = await reasonOf(slateOf([copyOf('hook', 100, both)], reels), 'hook')
    expect(why).toMatchObject({ kind: 'worse', other: 'full', level: 'stubs' })
    // Left are 30 g in place of 1 g.
    expect(why.kind === 'worse' && why.by).toBeCloseTo(29, 6)
  })

  it('the fullest would have to be put on', async () => {
    const slate = slateOf([copyOf('hook', 100, both)], [reelOf('full', 900), reelOf('half', 500)], {
      printers: [exactPrinter('a', { loaded: { 0: 'half' } })],
    })
    const why = await reasonOf(slate, 'hook')
    expect(why).toEqual({ kind: 'worse', other: 'full', level: 'swaps', by: 1 })
  })

  it('the fullest would not last beside what it is asked to do', async () => {
    const reels = [reelOf('full', 300), reelOf('half', 160)]
    const slate = slateOf([copyOf('hook', 150, both), copyOf('crate', 250, both)], reels)
    expect(await reasonOf(slate, 'hook')).toEqual({
      kind: 'would_not_last',
      other: 'full',
      chance: 0,
      copies: ['crate'],
    })
  })

  it('no other fits, it is locked, or the fullest is forbidden', async () => {
    const reels = [reelOf('full', 300), reelOf('half', 160)]
    const slate = slateOf([copyOf('hook', 100, both)], reels)
    const one = slateOf([copyOf('hook', 100, ['half'])], reels)
    expect(await reasonOf(one, 'hook')).toEqual({ kind: 'only' })
    const locks = [{ copy: 'hook', tool: 0, reel: 'half' }]
    expect(await reasonOf({ ...slate, locks }, 'hook')).toEqual({ kind: 'locked' })
    const barred = [{ reel: 'full' }]
    expect(await reasonOf({ ...slate, barred }, 'hook')).toEqual({
      kind: 'forbidden',
      other: 'full',
    })
  })

  it('the fullest is as good, and is left for what comes', async () => {
    const reels = [reelOf('full', 900), reelOf('half', 500)]
    const slate = slateOf([copyOf('hook', 100, both)], reels)
    const plan = await match({ ...slate, locks: [{ copy: 'hook', tool: 0, reel: 'half' }] })
    const why = explainChoice(slate, plan)(plan.served[0]!.duties[0]!)
    expect(why).toEqual({ kind: 'as_good', other: 'full', left: 900 })
  })

  it('the fullest would be better, where the plan is not the best', async () => {
    const reels = [reelOf('full', 900), reelOf('half', 101)]
    const slate = slateOf([copyOf('hook', 71, both)], reels)
    const plan = await match({ ...slate, locks: [{ copy: 'hook', tool: 0, reel: 'half' }] })
    const why = explainChoice(slate, plan)(plan.served[0]!.duties[0]!)
    // 30 g of the half are left, too little to be useful; of the full it would be 829 g.
    expect(why).toMatchObject({ kind: 'better', other: 'full', level: 'stubs' })
  })

  it('each other feeds another tool or part of the same print', async () => {
    const tasks = [0, 1].map((tool) => ({ tool, draw: [layered(50, 4)], fits: both }))
    const two = slateOf(
      [copyOf('duo', 50, both, { tasks })],
      [reelOf('full', 900), reelOf('half', 500)],
    )
    const plan = await match(two)
    for (const duty of plan.served[0]!.duties) {
      const others = both.filter((reel) => reel !== duty.reel)
      expect(explainChoice(two, plan)(duty)).toEqual({ kind: 'same_print', others })
    }
    // A third is held against each, though the second holds more.
    const more = { ...two, reels: [...two.reels, reelOf('third', 60)] }
    const fits = [...both, 'third']
    const three = {
      ...more,
      copies: [
        copyOf('duo', 50, fits, { tasks: tasks.map(({ tool, draw }) => ({ tool, draw, fits })) }),
      ],
    }
    const locks = both.map((reel, tool) => ({ copy: 'duo', tool, reel }))
    const why = explainChoice(three, await match({ ...three, locks }))
    const [duty] = (await match({ ...three, locks })).served[0]!.duties
    expect(why(duty!)).toMatchObject({ other: 'third', isNext: true })
  })

  it('the plan that was kept has it so, and what is worse behind that is told first', async () => {
    const slate = slateOf([copyOf('hook', 100, both)], [reelOf('full', 900), reelOf('half', 500)])
    const earlier = [{ copy: 'hook', tool: 0, reel: 'half', printer: 'a' }]
    expect(await reasonOf({ ...slate, earlier }, 'hook')).toEqual({
      kind: 'kept',
      other: 'full',
      less: 0,
    })
    const loaded = { ...slate, earlier, printers: [exactPrinter('a', { loaded: { 0: 'half' } })] }
    expect(await reasonOf(loaded, 'hook')).toEqual({
      kind: 'worse',
      other: 'full',
      level: 'swaps',
      by: 1,
    })
    // 40 g of the half are left: a stub, which the full would not be.
    const stub = { ...slate, earlier, reels: [reelOf('full', 900), reelOf('half', 140)] }
    expect(await reasonOf(stub, 'hook')).toMatchObject({
      kind: 'kept',
      less: expect.closeTo(40, 6),
    })
  })

  it('refuses what the plan does not do', async () => {
    const slate = slateOf([copyOf('hook', 100, both)], [reelOf('full', 900), reelOf('half', 500)])
    const plan = await match(slate)
    const [duty] = plan.served[0]!.duties
    const reel = duty!.reel === 'full' ? 'half' : 'full'
    expect(() => explainChoice(slate, plan)({ ...duty!, reel })).toThrow(/does not have/)
  })
})

/** 150 g in a hundred layers, to be changed once. */
const changeable = (more: Partial<MatchCopy> = {}): MatchCopy => ({
  ...copyOf('box', 150, ['s', 't']),
  tasks: [{ tool: 0, draw: [layered(150, 100)], fits: ['s', 't'] }],
  changes: {},
  ...more,
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
    const found = remediesFor(slate, plan, 'crate', { offers })
    expect(found.map(({ kind }) => kind)).toEqual(['change', 'any_colour', 'new_reel'])
    expect(found[1]).toMatchObject({ reels: [{ tool: 0, reel: 'other' }] })
    expect(found[2]).toMatchObject({ reel: 'bought' })
  })

  it('a measurement, where the reel would do on average', async () => {
    const slate = slateOf([copyOf('crate', 200, ['r'])], [reelOf('r', measured(215, 15))])
    const plan = await match(slate)
    const found = remediesFor(slate, plan, 'crate')
    expect(found).toHaveLength(1)
    expect(found[0]).toMatchObject({ kind: 'measure', reels: ['r'] })
    // Φ(1)
    expect(found[0]!.kind === 'measure' && found[0]!.chance).toBeCloseTo(0.8413, 3)
  })

  it('of two tools of which one has a reel the other lacks what its next is short of', async () => {
    const tasks = tasksFrom(['full', 'rest'])
    const slate = slateOf(
      [copyOf('duo', 50, [], { tasks })],
      [reelOf('full', 900), reelOf('rest', 44)],
    )
    const { unserved } = await match(slate)
    expect(unserved[0]!.missing).toMatchObject([{ nearest: 'rest', short_g: expect.closeTo(6, 6) }])
    // With no other at all both are told.
    const alone = { ...slate, reels: [reelOf('full', 900)] }
    const only = { tasks: tasksFrom(['full']) }
    const none = await match({ ...alone, copies: [copyOf('duo', 50, [], only)] })
    expect(none.unserved[0]!.missing).toHaveLength(2)
  })

  describe('where a change is allowed', () => {
    it('two reels lack what the last of them is short of for the rest', async () => {
      const reels = [reelOf('s', 73), reelOf('t', 74)]
      const { unserved } = await match(slateOf([changeable()], reels))
      // t feeds 49 layers of 1.5 g each; of the rest s has 73 g of 76.5 g.
      expect(unserved[0]!.missing).toMatchObject([
        { before: [{ reel: 't', untilLayer: 49 }], nearest: 's', short_g: expect.closeTo(3.5, 6) },
      ])
      const served = async (more_g: number) => {
        const copy = changeable({ changes: { afterLayers: [49] } })
        const richer = [reelOf('s', 73 + more_g), reelOf('t', 74)]
        return (await match(slateOf([copy], richer))).served.length
      }
      expect([await served(3.4), await served(3.51)]).toEqual([0, 1])
    })

    it('two reels that would do on average are to be measured', async () => {
      const reels = [reelOf('s', measured(78, 3)), reelOf('t', measured(78, 3))]
      const slate = slateOf([changeable()], reels)
      const [first] = remediesFor(slate, await match(slate), 'box')
      // 3 g are to spare of each: Φ(1)² on either side of the middle.
      expect(first).toMatchObject({ kind: 'measure', reels: ['s', 't'] })
      expect(first?.kind === 'measure' && first.chance).toBeCloseTo(0.8413 ** 2, 2)
    })
  })

  it('nothing that would leave out a print as important', async () => {
    const one = copyOf('one', 100, ['r'])
    const other = copyOf('other', 100, ['s'], {
      tasks: [{ tool: 0, draw: [layered(100, 4)], fits: ['s'], inAnyColour: ['r', 's'] }],
    })
    const slate = slateOf([one, other], [reelOf('r', 120), reelOf('s', 20)])
    const plan = await match(slate)
    expect(remediesFor(slate, plan, 'other')).toEqual([])
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

it('cancelled, it begins no part, and nothing is proven', async () => {
  const [hook, crate] = [copyOf('hook', 10, ['a']), copyOf('crate', 10, ['b'])]
  const slate = slateOf([hook, crate], [reelOf('a', 100), reelOf('b', 100)])
  let begun = 0
  const solve = partSolver(slate, highsSolver())
  const solving: PartSolver = (...part) => {
    begun++
    return solve(...part)
  }
  const whole = await matchSlate(slate, { solvePart: solving })
  expect([begun, whole.ended, whole.proven]).toEqual([2, 'done', true])
  const cut = await matchSlate(slate, { solvePart: solving, isCancelled: () => begun > 2 })
  expect([begun, cut.ended, cut.proven]).toEqual([3, 'cancelled', false])
  expect(cut.served).toHaveLength(2)
})
