import { describe, expect, it } from 'vitest'
import { matchSlate } from '../../src/match/index.ts'
import { copyOf, layered, reelOf, slateOf } from './told-slate.ts'

const valueOf = (plan: Awaited<ReturnType<typeof matchSlate>>, level: string): number =>
  plan.levels.filter((each) => each.level === level).reduce((sum, { value }) => sum + value, 0)

describe('without a solver', () => {
  it('uses up the remnant before it opens a new reel', async () => {
    const reels = [reelOf('new', 1000, { sealed: true }), reelOf('remnant', 130)]
    const plan = await matchSlate(slateOf([copyOf('hook', 125, ['new', 'remnant'])], reels))
    expect(plan.served.map(({ duties }) => duties[0]!.reel)).toEqual(['remnant'])
    expect(valueOf(plan, 'opened')).toBe(0)
  })

  it('says what is missing where nothing is left that would do', async () => {
    const plan = await matchSlate(slateOf([copyOf('crate', 200, ['r'])], [reelOf('r', 130)]))
    expect(plan.served).toEqual([])
    expect(plan.unserved[0]).toMatchObject({ copy: 'crate', missing: [{ nearest: 'r' }] })
    expect(plan.unserved[0]!.missing[0]!.short_g).toBeCloseTo(70, 3)
  })

  it('serves many small prints rather than one large one, and an important one before them', async () => {
    const small = Array.from({ length: 9 }, (_, k) => copyOf(`hook ${k}`, 10, ['r']))
    const many = await matchSlate(
      slateOf([copyOf('crate', 95, ['r']), ...small], [reelOf('r', 100)]),
    )
    expect(many.unserved.map(({ copy }) => copy)).toEqual(['crate'])
    const crate = copyOf('crate', 95, ['r'], { importance: 1 })
    const one = await matchSlate(slateOf([crate, ...small], [reelOf('r', 100)]))
    expect(one.served.map(({ copy }) => copy)).toEqual(['crate'])
  })

  it('plans a change at a layer end where no reel is enough by itself', async () => {
    const copy = copyOf('crate', 200, ['r', 's'], {
      tasks: [{ tool: 0, draw: [layered(200, 10)], fits: ['r', 's'] }],
      changes: { afterLayers: [3, 5] },
    })
    const plan = await matchSlate(slateOf([copy], [reelOf('r', 130), reelOf('s', 130)]))
    expect(plan.served[0]!.duties).toMatchObject([
      { afterLayer: 0, untilLayer: 5 },
      { afterLayer: 5, untilLayer: null },
    ])
    expect(valueOf(plan, 'changes')).toBe(1)
  })

  it('keeps to a lock and away from what is barred', async () => {
    const reels = [reelOf('r', 300), reelOf('s', 300)]
    const slate = slateOf([copyOf('hook', 100, ['r', 's'])], reels)
    const locked = await matchSlate({ ...slate, locks: [{ copy: 'hook', tool: 0, reel: 's' }] })
    expect(locked.served[0]!.duties[0]!.reel).toBe('s')
    const barred = await matchSlate({ ...slate, barred: [{ reel: 'r' }] })
    expect(barred.served[0]!.duties[0]!.reel).toBe('s')
  })
})
