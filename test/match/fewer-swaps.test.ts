import { expect, it } from 'vitest'
import { matchSlate } from '../../src/match/index.ts'
import { copyOf, reelOf, slateOf } from './told-slate.ts'

const both = { printers: ['a', 'b'] }

it('keeps a reel on one printer where its prints may go there, without a solver, too', async () => {
  const slate = slateOf(
    [copyOf('hook', 50, ['r'], { printers: ['b'] }), copyOf('cleat', 60, ['r'], both)],
    [reelOf('r', 300)],
  )
  const plan = await matchSlate(slate)
  expect(plan.orders.map(({ swaps }) => swaps)).toEqual([0, 1])
})

it('leaves printers with due times as they are', async () => {
  const due = { printers: ['b'], due_h: 1, duration_h: 1 }
  const slate = slateOf(
    [copyOf('hook', 50, ['r'], due), copyOf('cleat', 60, ['r'], both)],
    [reelOf('r', 300)],
  )
  expect((await matchSlate(slate)).served.map(({ printer }) => printer)).toEqual(['b', 'a'])
})
