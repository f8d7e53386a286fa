import { describe, expect, it } from 'vitest'
import { type MatchPlan, matchSlate } from '../../src/match/index.ts'
import { copyOf, exactPrinter, reelOf, slateOf } from './told-slate.ts'

const only = (printer: string, duration_h: number | undefined, due_h?: number) => ({
  printers: [printer],
  ...(duration_h !== undefined && { duration_h }),
  ...(due_h !== undefined && { due_h }),
})
const timesOf = ({ served }: MatchPlan) =>
  Object.fromEntries(
    served.map(({ copy, begins_h, ends_h, late, waitsFor }) => [
      copy,
      { begins_h, ends_h, late, waitsFor },
    ]),
  )

describe('one reel for two printers', () => {
  const reels = [reelOf('r', 500)]

  it('is on the second when it has come off the first', async () => {
    const slate = slateOf(
      [copyOf('hook', 50, ['r'], only('a', 3)), copyOf('cleat', 60, ['r'], only('b', 2))],
      reels,
    )
    expect(timesOf(await matchSlate(slate))).toEqual({
      hook: { begins_h: 0, ends_h: 3, late: false, waitsFor: null },
      cleat: { begins_h: 3, ends_h: 5, late: false, waitsFor: 'r' },
    })
  })

  it('makes late what waits for it too long, and the plan is not called proven', async () => {
    const slate = slateOf(
      [copyOf('hook', 50, ['r'], only('a', 3, 4)), copyOf('cleat', 60, ['r'], only('b', 2, 4))],
      reels,
    )
    const plan = await matchSlate(slate)
    expect(timesOf(plan)['cleat']).toMatchObject({ ends_h: 5, late: true, waitsFor: 'r' })
    expect(plan.levels.find(({ level }) => level === 'late')!.value).toBe(0)
    expect(plan.proven).toBe(false)
  })

  it('is free when the printer is that it is on at first', async () => {
    const slate = slateOf([copyOf('cleat', 60, ['r'], only('b', 2))], reels, {
      printers: [exactPrinter('a', { loaded: { 0: 'r' }, free_h: 1.5 }), exactPrinter('b')],
    })
    expect(timesOf(await matchSlate(slate))['cleat']).toEqual({
      begins_h: 1.5,
      ends_h: 3.5,
      late: false,
      waitsFor: 'r',
    })
  })

  it('is free nobody knows when after a print of unknown duration', async () => {
    const slate = slateOf(
      [copyOf('hook', 50, ['r'], only('a', undefined)), copyOf('cleat', 60, ['r'], only('b', 2))],
      reels,
    )
    expect(timesOf(await matchSlate(slate))['cleat']).toMatchObject({
      begins_h: null,
      ends_h: null,
    })
  })
})

it('does not wait for reels of its own', async () => {
  const slate = slateOf(
    [copyOf('hook', 50, ['r'], only('a', 3)), copyOf('cleat', 60, ['s'], only('b', 2))],
    [reelOf('r', 500), reelOf('s', 500)],
  )
  expect(timesOf(await matchSlate(slate))['cleat']).toMatchObject({ begins_h: 0, waitsFor: null })
})
