import { describe, expect, test } from 'vitest'
import { harbourLedger } from '../../demo/ledger/harbour.ts'
import { largeShelf } from '../../demo/ledger/large-shelf.ts'
import { type FactJson, isCatalogueRow, isFact } from '../../src/contract/index.ts'
import { shelfBelief } from '../../src/estimate/index.ts'
import {
  addReel,
  believeReel,
  checkShelf,
  findRow,
  listReels,
  reelFilter,
  reelStory,
  type ShelfView,
  shelfCheckToJson,
  shelfView,
  viewOf,
  weigh,
} from '../../src/service/index.ts'
import { grams, millimetres } from '../../src/units/index.ts'
import { judge, type Printer, unknownPrinter } from '../../src/verdict/index.ts'
import { addKittiwake, bench, valueOf } from '../shelf-bench.ts'

const records = harbourLedger()
const rows = records.filter(isCatalogueRow)
const facts = records.filter(isFact)
const viewed = viewOf(rows, facts, 0)
if (!viewed.ok) throw new Error(viewed.refusal.message)
const view: ShelfView = viewed.value
const gull = findRow(rows, 'printer', 'the gull')
if (!gull.ok) throw new Error('no Gull')
const printer = gull.value.id
const now = '2025-11-01T12:00:00.000Z'
const all = (): boolean => true
type ToolAsked = Parameters<typeof checkShelf>[1]['tools'][number]
const one = (peak_mm: number, tool = 0): ToolAsked => ({ tool, draw: [{ weight: 1, peak_mm }] })

const reelOf = (colour: string): string => {
  const card = [...view.cards.values()].find(
    (each) => each.colour?.name === colour && each.state !== 'retired',
  )
  if (card === undefined) throw new Error(`no ${colour}`)
  return card.id
}

const withTail = (tail_mm: number): Printer => ({
  ...unknownPrinter,
  tail_mm: { value: millimetres(tail_mm), u: 0 },
})

describe('checkShelf', () => {
  const { verdict, tools } = checkShelf(view, { tools: [one(48_630)], printer, fits: all })
  const { reels } = tools[0]!

  test('judges every reel in use, and each as judge does', () => {
    expect(reels.map(({ card }) => card.id).toSorted()).toEqual(
      [...view.cards.values()]
        .filter(({ state }) => state === 'new' || state === 'part-used')
        .map(({ id }) => id)
        .toSorted(),
    )
    for (const { card, chance, verdict: call, leftOver } of reels) {
      const belief = shelfBelief(view.estimate, card.id, { printer })
      const alone = judge({ belief, printer: unknownPrinter, draw: one(48_630).draw })
      expect(chance).toBeCloseTo(alone.chance, 9)
      expect(leftOver.value).toBeCloseTo(alone.leftOver.value, 6)
      expect(call).toBe(alone.verdict)
    }
  })

  test('puts enough first with the fewest left over, then close by chance, then short', () => {
    expect(verdict).toBe('enough')
    const order = ['enough', 'close', 'short']
    for (const [place, reel] of reels.slice(1).entries()) {
      const before = reels[place]!
      expect(order.indexOf(before.verdict)).toBeLessThanOrEqual(order.indexOf(reel.verdict))
      if (before.verdict !== reel.verdict) continue
      if (reel.verdict === 'enough') {
        expect(before.leftOver.value).toBeLessThanOrEqual(reel.leftOver.value)
      } else if (reel.verdict === 'close') {
        expect(before.chance).toBeGreaterThanOrEqual(reel.chance)
      }
    }
  })

  test('says what settles the close ones, and of the others nothing', () => {
    const close = reels.filter((reel) => reel.verdict === 'close')
    expect(close.length).toBeGreaterThan(1)
    expect(close.some(({ next }) => next !== null)).toBe(true)
    expect(reels.every((reel) => reel.verdict === 'close' || reel.next === null)).toBe(true)
  })

  test('two tools do not get the same reel', () => {
    const onlyYellow = checkShelf(view, {
      tools: [one(3000), one(3000, 1)],
      fits: ({ id }) => id === reelOf('oilskin yellow'),
    })
    expect(onlyYellow.tools.map((tool) => tool.reels[0]?.verdict)).toEqual(['enough', 'enough'])
    expect([onlyYellow.verdict, onlyYellow.chance]).toEqual(['short', 0])
    const both = checkShelf(view, {
      tools: [one(3000), one(3000, 1)],
      fits: ({ id }) => [reelOf('oilskin yellow'), reelOf('foam white')].includes(id),
    })
    expect(both.verdict).toBe('enough')
  })

  test('tells no more than is asked for, and counts them all', () => {
    const question = { tools: [one(48_630)], printer, fits: all }
    const few = checkShelf(view, { ...question, most: 2 })
    expect(few.tools[0]!.reels).toEqual(reels.slice(0, 2))
    expect({ ...few, tools: [] }).toEqual({ ...checkShelf(view, question), tools: [] })
    const { counts } = few.tools[0]!
    for (const call of ['enough', 'close', 'short'] as const) {
      expect(counts[call]).toBe(reels.filter((reel) => reel.verdict === call).length)
    }
  })

  test('of a large shelf it tells the same ones first', () => {
    const many = largeShelf(260)
    const large = viewOf(many.filter(isCatalogueRow), many.filter(isFact), 0)
    if (!large.ok) throw new Error(large.refusal.message)
    for (const draw of [20_000, 150_000, 400_000]) {
      const question = { tools: [one(draw)], fits: all }
      const whole = checkShelf(large.value, question)
      const [tool] = whole.tools
      expect(tool!.reels.length).toBeGreaterThan(250)
      const few = checkShelf(large.value, { ...question, most: 5 })
      expect(few.tools[0]!.reels).toEqual(tool!.reels.slice(0, 5))
      const first = tool!.reels.slice(0, 200).map(({ card }) => card)
      expect(few.tools[0]!.order).toEqual(first)
      expect({ ...few, tools: [] }).toEqual({ ...whole, tools: [] })
    }
  })

  test('another choice, printer or tail is another answer', () => {
    const asked = { tools: [one(48_630)], fits: all }
    const marginOf = (more: Partial<Parameters<typeof checkShelf>[1]>): number =>
      checkShelf(view, { ...asked, ...more }).tools[0]!.reels[0]!.margin.value
    const [short, long] = [marginOf({ told: withTail(0) }), marginOf({ told: withTail(20_000) })]
    expect(long).toBeLessThan(short)
    expect(marginOf({ told: withTail(0) })).toBe(short)
    expect(marginOf({ printer })).not.toBe(marginOf({}))
    const yellow = reelOf('oilskin yellow')
    const chosen = checkShelf(view, { ...asked, fits: ({ id }) => id === yellow })
    expect(chosen.tools[0]!.reels.map(({ card }) => card.id)).toEqual([yellow])
  })

  test('with nothing that fits it is short', () => {
    const none = checkShelf(view, { tools: [one(3000)], fits: () => false })
    expect([none.verdict, none.chance, none.tools[0]?.reels]).toEqual(['short', 0, []])
  })
})

test('a reel that may be empty is close at best, and stands behind', async () => {
  const handed = await bench()
  const make = { name: 'Kittiwake PLA', maker: 'Kittiwake', material: 'PLA' }
  const added = valueOf(await addReel(handed, { make, count: 3 })).reels
  for (const [place, reading_g] of [265, 265, 900].entries()) {
    const reel = added[place]!
    // oxlint-disable-next-line no-await-in-loop -- one after the other, as at a bench
    valueOf(await weigh(handed, { reel, weighing: { reading_g }, accept: true }))
  }
  const shelf = valueOf(await shelfView(handed.store))
  const [tool] = checkShelf(shelf, { tools: [one(200)], fits: all }).tools
  const [first, ...others] = tool!.reels
  expect([first?.card.id, first?.verdict]).toEqual([added[2], 'enough'])
  for (const { card, chance, verdict } of others) {
    expect(chance).toBeGreaterThan(0.95)
    expect(verdict).toBe('close')
    const belief = shelfBelief(shelf.estimate, card.id)
    const alone = judge({ belief, printer: unknownPrinter, draw: one(200).draw })
    expect([alone.verdict, alone.chance]).toEqual(['close', expect.closeTo(chance, 9)])
  }
})

describe('a reel that feeds a print which runs', () => {
  const tools = [one(48_630)]
  const before = checkShelf(view, { tools, printer, fits: all }).tools[0]!
  const [best, second] = before.reels
  const startedOn = (...reels: readonly string[]): ShelfView => ({
    ...view,
    rows: [
      ...rows,
      {
        kind: 'running',
        id: '94Y7AQJ6D',
        changed_at: now,
        print: 'ab'.repeat(32),
        printer,
        started_at: now,
        recorded_at: now,
        reels: reels.map((reel, tool) => ({ tool, reel })),
      },
    ],
  })
  const after = checkShelf(startedOn(best!.card.id), { tools, printer, fits: all })

  test('says on which printer, and holds what it held', () => {
    expect(before.reels.flatMap(({ feedsPrintsOn }) => feedsPrintsOn)).toEqual([])
    const ranked = after.tools[0]!.reels.find(({ card }) => card.id === best!.card.id)
    expect(ranked).toEqual({ ...best, feedsPrintsOn: ['the Gull'] })
    const [json] = shelfCheckToJson(
      {
        ...after,
        two: null,
        printer: {},
        confidence: 0.95,
        diameter_mm: 1.75,
        otherDiameter: 0,
        materials: [],
        print: null,
        findings: [],
      },
      { all: true },
    ).tools
    expect(
      json!.reels
        .map(({ reel, feeds_prints_on: on }) => [reel.id, on])
        .filter(([, on]) => on!.length > 0),
    ).toEqual([[best!.card.id, ['the Gull']]])
  })

  test('stands behind the others of its call, and is taken only where they are too few', () => {
    expect([best?.verdict, second?.verdict]).toEqual(['enough', 'enough'])
    expect(after.taken).toEqual([second!.card.id])
    const { counts, reels } = after.tools[0]!
    expect(counts).toEqual(before.counts)
    expect(reels[counts.enough - 1]?.card.id).toBe(best!.card.id)
    const enough = before.reels.filter(({ verdict }) => verdict === 'enough')
    const everyOne = startedOn(...enough.map(({ card }) => card.id))
    expect(checkShelf(everyOne, { tools, printer, fits: all }).taken).toEqual([best!.card.id])
    const likeliest = before.reels.find(({ verdict }) => verdict === 'close')!.card.id
    const doubtful = checkShelf(startedOn(likeliest), { tools, printer, fits: all }).tools[0]!.reels
    expect(doubtful[counts.enough + counts.close - 1]?.card.id).toBe(likeliest)
    expect(counts.close).toBeGreaterThan(1)
  })

  test('is told of no more once its print is recorded', () => {
    const { rows: shown } = startedOn(best!.card.id)
    const drawn = facts.find(({ kind }) => kind === 'drew')!
    const ended = { ...view, rows: shown, facts: [...facts, { ...drawn, id: '94Y7AQJ6D' }] }
    const told = checkShelf(ended, { tools, printer, fits: all }).tools[0]!.reels
    expect(told.flatMap(({ feedsPrintsOn }) => feedsPrintsOn)).toEqual([])
  })
})

describe('a reel whose weighings contradict each other', () => {
  test('is close, and told with what does not agree, as the check of it alone tells it', async () => {
    const handed = await bench()
    const { reels } = await addKittiwake(handed, { count: 2 })
    const [reel, other] = reels as [string, string]
    for (const reading_g of [1240, 1240, 1240, 700]) {
      // oxlint-disable-next-line no-await-in-loop -- one after the other, as at a bench
      valueOf(await weigh(handed, { reel, weighing: { reading_g }, accept: true }))
    }
    const recorded = valueOf(await shelfView(handed.store))
    // As a table that was imported has them: nobody has taken anything as unrecorded.
    const unasked = recorded.facts.map((fact): FactJson => {
      if (fact.kind !== 'weighed') return fact
      const { accepted_off: _off, ...shown } = fact
      return shown
    })
    const slipped = valueOf(viewOf(recorded.rows, unasked, 0))
    const asked = [one(10_000)]
    const alone = judge({
      belief: valueOf(believeReel(slipped, { reel, at: now })).belief,
      draw: asked[0]!.draw,
    })
    const told = checkShelf(slipped, { tools: asked, fits: all }).tools[0]!.reels
    const names = alone.contradicting.map(({ what }) => what)
    expect(names.length).toBeGreaterThan(0)
    expect(told.find(({ card }) => card.id === reel)).toMatchObject({
      verdict: 'close',
      contradicting: names,
    })
    expect(told.find(({ card }) => card.id === other)?.contradicting).toEqual([])
  })
})

/** How many reels fit. */
const ids = (filter: Parameters<typeof reelFilter>[1]): number => {
  const fits = reelFilter(view, filter)
  if (!fits.ok) throw new Error(fits.refusal.message)
  return listReels(view, fits.value, false).length
}

describe('reelFilter', () => {
  test('every word has to fit, in any case', () => {
    expect(ids({})).toBe(12)
    expect(ids({ material: 'petg' })).toBe(3)
    expect(ids({ make: 'TESSAMUND' })).toBe(4)
    expect(ids({ make: 'refill tessamund' })).toBe(1)
    expect(ids({ colour: 'blue' })).toBe(1)
    expect(ids({ place: 'window', make: 'ostrelle' })).toBe(3)
    expect(ids({ colour: 'no such' })).toBe(0)
  })

  test('a material that nobody knows is refused', () => {
    expect(reelFilter(view, { material: 'unobtainium' })).toMatchObject({
      ok: false,
      refusal: { code: 'material_unknown' },
    })
  })
})

describe('believeReel', () => {
  const grey = reelOf('gull grey')
  const scale = view.shelf.catalogue.scales[0]!

  test('a weighing told now is taken, and the view stays as it is', () => {
    const before = believeReel(view, { reel: grey, at: now })
    const after = believeReel(view, {
      reel: grey,
      at: now,
      weighing: { scale, reading: grams(415) },
    })
    if (!before.ok || !after.ok) throw new Error('refused')
    expect(after.value.surprise?.innovation).toBeLessThan(-5)
    expect(view.facts).toHaveLength(facts.length)
    expect(believeReel(view, { reel: grey, at: now })).toEqual(before)
  })

  test('a scale that the shelf does not have will do', () => {
    const weighing = {
      scale: { ...scale, id: 'borrowed' },
      reading: grams(422),
    }
    expect(believeReel(view, { reel: grey, at: now, weighing }).ok).toBe(true)
  })

  test('what is on the shelf no more is told as such', () => {
    const retired = [...view.cards.values()].find(({ state }) => state === 'retired')!
    expect(believeReel(view, { reel: retired.id, at: now })).toMatchObject({
      ok: false,
      refusal: { code: 'reel_retired' },
    })
  })

  test('says what the figures rest on', () => {
    const slate = believeReel(view, { reel: reelOf('slate'), printer, at: now })
    if (!slate.ok) throw new Error(slate.refusal.message)
    const { weighings, since, rests } = slate.value.working
    expect(weighings.map(({ whenNew }) => whenNew)).toEqual([false, false, false, true])
    expect(since.draws).toBe(2)
    expect(since.length_mm).toBeCloseTo(48_629.9 + 2300, 0)
    expect(rests.map(({ id, guessed }) => [id, guessed])).toEqual([
      ['tare', false],
      ['linear_density', false],
      ['feed_factor', false],
    ])
  })
})

const white = reelOf('foam white')

/** Net of the white reel, g. */
const net = (moments: Parameters<typeof reelStory>[2]): number => {
  const story = reelStory(view, white, moments)
  if (!story.ok) throw new Error(story.refusal.message)
  return story.value.known!.net.value
}

describe('reelStory', () => {
  test('goes back in time, by what is known now or was known then', () => {
    const spring = '2025-04-27T00:00:00.000Z'
    expect(net({})).toBeLessThan(700)
    expect(net({ at: spring })).toBeGreaterThan(900)
    expect(net({ knownAt: spring })).toBeGreaterThan(900)
    // Later weighings tell of the time before, too.
    expect(net({ at: spring })).not.toBe(net({ knownAt: spring }))
  })

  test('before it came there is nothing to tell', () => {
    expect(reelStory(view, white, { at: '2025-01-12T00:00:00.000Z' })).toMatchObject({
      refusal: { code: 'before_opened' },
    })
    expect(reelStory(view, white, { knownAt: '2025-01-12T00:00:00.000Z' })).toMatchObject({
      refusal: { code: 'not_known_then' },
    })
  })

  test('the measurement offered narrows the length', () => {
    const story = reelStory(view, reelOf('gull grey'), {})
    if (!story.ok) throw new Error(story.refusal.message)
    const { length, next } = story.value.known!
    expect(next?.id).toBe('weigh_empty_carrier')
    expect(next?.lengthSd).toBeLessThan(length.u)
  })
})
