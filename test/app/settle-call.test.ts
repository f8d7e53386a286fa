import { expect, test } from 'vitest'
import { withPart } from '../../src/app/check/supposed-part.ts'
import { waysToSettle } from '../../src/app/check/ways-to-settle.ts'

const next = (id: string, settles: number) => ({
  id,
  instruction: `Do ${id}.`,
  effort_min: 1,
  margin_u_g: 1,
  settles,
})
const asked = [next('weigh_empty_carrier', 0.79), next('calipers', 0.2), next('cut', 0.01)]
const shown = (
  check: Parameters<typeof waysToSettle>[0],
  supposed: Parameters<typeof waysToSettle>[2] = {},
): readonly string[] =>
  waysToSettle(check, asked, supposed).order.flatMap((way) =>
    way.kind === 'told' ? [way.next.id] : way.isOpen ? [way.kind] : [],
  )

test('what settles a close call best comes first, and the reel can be weighed', () => {
  const check = { verdict: 'close', next: asked } as const
  expect(shown(check)).toEqual(['empty_carrier', 'calipers', 'weighing'])
  const [first] = waysToSettle(check, asked, {}).order
  expect(first).toMatchObject({ isFirst: true, next: { settles: 0.79 } })
  const weighed = [next('weigh_reel', 0.8), ...asked]
  expect(waysToSettle({ verdict: 'close', next: weighed }, weighed, {}).order[0]?.kind).toBe(
    'weighing',
  )
})

test('a measurement that is made elsewhere is told in its place', () => {
  const around = next('weigh_around_a_print', 0.3)
  const [carrier, calipers] = asked
  const best = { verdict: 'close', next: [around, carrier!, calipers!] } as const
  expect(shown(best)).toEqual(['weigh_around_a_print', 'empty_carrier', 'calipers', 'weighing'])
  // It is the one to make: none of the others is.
  const { order } = waysToSettle(best, best.next, {})
  expect(order.filter((way) => way.kind !== 'told' && way.isFirst)).toEqual([])
  const second = { verdict: 'close', next: [carrier!, around] } as const
  expect(shown(second)).toEqual(['empty_carrier', 'weigh_around_a_print', 'weighing'])
  // Not where it is hardly worth its line, nor of a call that is settled.
  const seldom = [next('weigh_around_a_print', 0.04)]
  expect(shown({ verdict: 'close', next: seldom })).toEqual(['weighing'])
  expect(shown({ verdict: 'enough', next: [around] })).toEqual([])
})

test('nothing is to be settled of a reel that is enough, but what is supposed keeps its field', () => {
  expect(shown({ verdict: 'enough', next: [] })).toEqual([])
  const empty_carrier = { reading_g: 200 }
  const settled = { verdict: 'enough', next: [] } as const
  expect(shown(settled, { empty_carrier })).toEqual(['empty_carrier'])
  // With what it was said to be worth, and in its place.
  expect(waysToSettle(settled, asked, { empty_carrier }).order[0]).toMatchObject({
    kind: 'empty_carrier',
    isFirst: true,
    next: { settles: 0.79 },
  })
  // Others are not asked for a second time by what was worth it before.
  const close = { verdict: 'close', next: [next('calipers', 0.9)] } as const
  expect(shown(close, { empty_carrier })).toEqual(['empty_carrier', 'calipers', 'weighing'])
})

test('one measurement that is supposed leaves the others, and another reel leaves none', () => {
  const reel = { tool: 0, reel: 'K7RMY' }
  const weighed = withPart([{ tool: 1, reel: 'GQWGD' }], reel, { weighing: { reading_g: 422 } })
  const both = withPart(weighed, reel, { empty_carrier: { reading_g: 200 } })
  expect(both).toEqual([
    { tool: 1, reel: 'GQWGD' },
    { ...reel, weighing: { reading_g: 422 }, empty_carrier: { reading_g: 200 } },
  ])
  expect(withPart(both, reel, { weighing: null })).toContainEqual({
    ...reel,
    empty_carrier: { reading_g: 200 },
  })
  expect(withPart(both, { tool: 0, reel: 'REYRT' }, { weighing: null })).toContainEqual({
    tool: 0,
    reel: 'REYRT',
  })
})
