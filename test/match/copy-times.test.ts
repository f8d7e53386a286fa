import { describe, expect, it } from 'vitest'
import { type MatchPlan, matchSlate } from '../../src/match/index.ts'
import { highsSolver } from '../../src/solver/index.ts'
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

  it('makes one late where there is no time for both, and the shorter goes first', async () => {
    const slate = slateOf(
      [copyOf('hook', 50, ['r'], only('a', 3, 4)), copyOf('cleat', 60, ['r'], only('b', 2, 4))],
      reels,
    )
    const plan = await matchSlate(slate, { solver: highsSolver() })
    expect(timesOf(plan)).toMatchObject({
      cleat: { ends_h: 2, late: false },
      hook: { ends_h: 5, late: true, waitsFor: 'r' },
    })
    expect(plan.levels.find(({ level }) => level === 'late')).toMatchObject({ value: 1, bound: 1 })
    expect(plan.proven).toBe(true)
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
