import { expect, test } from 'vitest'
import { addRow, recordDraw, shelfView } from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, smallPrint, valueOf } from '../shelf-bench.ts'

const ready = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const [reel, other] = reels as [string, string]
  return { handed, reel, other }
}

test('a finished print takes its whole draw, and is kept', async () => {
  const { handed, reel } = await ready()
  const print = smallPrint()
  const { facts, reels } = valueOf(await recordDraw(handed, { print, reels: [{ reel }] }))
  expect(facts).toHaveLength(1)
  expect(facts[0]).toMatchObject({ kind: 'drew', length_mm: 300, print: print.id, tool: 0 })
  expect(facts[0]).not.toHaveProperty('share')
  expect(await handed.store.print(print.id)).toEqual(print)
  // 0.3 m and a start of 50 mm, at 2.98 g/m.
  const { before, now } = reels[0]!
  expect(before!.net.value - now!.net.value).toBeCloseTo(0.35 * 2.98, 1)
})

test('a print that stopped in its second layer took between a third and two thirds', async () => {
  const { handed, reel } = await ready()
  const stoppedAt = { layer: 2 }
  const { facts } = valueOf(
    await recordDraw(handed, { print: smallPrint(), reels: [{ reel }], stoppedAt }),
  )
  const [fact] = facts
  expect(fact).toMatchObject({ stopped_at: stoppedAt })
  if (fact?.kind !== 'drew') throw new Error('no draw')
  expect(fact.share?.value).toBeCloseTo(0.5, 12)
  expect(fact.share?.u).toBeCloseTo(1 / 3 / Math.sqrt(12), 12)
})

test('two tools feed from two reels, in one transaction', async () => {
  const { handed, reel, other } = await ready()
  const print = smallPrint([0, 1])
  const one = await recordDraw(handed, { print, reels: [{ tool: 0, reel }] })
  expect(codeOf(one)).toBe('tool_without_reel')
  expect(await handed.store.prints()).toEqual([])
  const { facts } = valueOf(
    await recordDraw(handed, {
      print,
      reels: [
        { tool: 0, reel },
        { tool: 1, reel: other },
      ],
    }),
  )
  expect(facts.map((fact) => (fact.kind === 'drew' ? [fact.tool, fact.reel] : []))).toEqual([
    [0, reel],
    [1, other],
  ])
})

test('a kept print is taken by the beginning of its hash, and one recorded again is told', async () => {
  const { handed, reel } = await ready()
  expect(codeOf(await recordDraw(handed, { kept: 'abab', reels: [{ reel }] }))).toBe(
    'print_unknown',
  )
  const first = valueOf(await recordDraw(handed, { print: smallPrint(), reels: [{ reel }] }))
  expect(first.notes).toEqual([])
  const again = valueOf(await recordDraw(handed, { kept: 'ABAB', reels: [{ reel }] }))
  expect(again.facts[0]).toMatchObject({ length_mm: 300 })
  expect(again.notes.join(' ')).toContain('recorded from')
})

test('a reel that ran dry in it: both facts, or neither where that is surprising', async () => {
  const { handed, reel } = await ready()
  const dry = { print: smallPrint(), reels: [{ reel, ranDry: true }], stoppedAt: { layer: 2 } }
  expect(codeOf(await recordDraw(handed, dry))).toBe('run_dry_surprising')
  expect((await handed.store.facts()).map(({ kind }) => kind)).toEqual(['opened', 'opened'])
  const { facts } = valueOf(await recordDraw(handed, { ...dry, accept: true }))
  expect(facts.map(({ kind }) => kind)).toEqual(['drew', 'ran-dry'])
  const view = valueOf(await shelfView(handed.store))
  expect(view.cards.get(reel)?.state).toBe('empty')
})

test('families that differ: the printer’s firmware decides, or must be told', async () => {
  const { handed, reel } = await ready()
  const row = smallPrint()
  const [group] = row.families
  const other = { ...group!, families: ['meta'], tools: [{ ...group!.tools[0]!, peak_mm: 250 }] }
  const print = { ...row, families: [{ ...group!, families: ['host'] }, other] }
  const input = { print, reels: [{ reel }] }
  expect(codeOf(await recordDraw(handed, input))).toBe('firmware_needed')
  const told = valueOf(await recordDraw(handed, { ...input, firmware: 'meta' }))
  expect(told.facts[0]).toMatchObject({ length_mm: 250 })
  valueOf(await addRow(handed, 'printer', { name: 'right', firmware: 'meta' }))
  const known = valueOf(await recordDraw(handed, { ...input, printer: 'right' }))
  expect(known.facts[0]).toMatchObject({ length_mm: 250 })
})

test.each([
  [{ length_mm: 1000, reels: [] }, 'reel_needed'],
  [{ length_mm: 1000, reels: ['first'], stoppedAt: { layer: 1 } }, 'stop_needs_print'],
  [{ print: 'small', reels: ['first', 'second'] }, 'tool_not_used'],
  [{ print: 'small', reels: ['first'], stoppedAt: { layer: 9 } }, 'beyond_print'],
  [{ print: 'small', reels: ['first'], printer: 'attic' }, 'printer_unknown'],
] as const)('%j is refused: %s', async ({ reels, ...input }, code) => {
  const { handed, reel, other } = await ready()
  const { print, ...rest } = { print: undefined, ...input }
  const outcome = await recordDraw(handed, {
    ...rest,
    ...(print !== undefined && { print: smallPrint() }),
    reels: reels.map((which) => ({ reel: which === 'first' ? reel : other })),
  })
  expect(codeOf(outcome)).toBe(code)
})
