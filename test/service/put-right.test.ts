import { describe, expect, test } from 'vitest'
import { showId } from '../../src/contract/index.ts'
import {
  addRow,
  addWaiting,
  listReels,
  measureReel,
  putRight,
  recordDraw,
  recordOfReel,
  shelfView,
  weigh,
} from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, noon, smallPrint, valueOf } from '../shelf-bench.ts'

const weighed = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  const [reel, other] = reels as [string, string]
  const { fact } = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1262 } }))
  return { handed, reel, other, fact: fact.id }
}

test('a fact is void, what holds instead is written with it, and the figures follow', async () => {
  const { handed, reel } = await weighed()
  const wrong = valueOf(await weigh(handed, { reel, weighing: { reading_g: 1162 }, accept: true }))
  const reason = 'misread'
  const { recorded } = valueOf(
    await putRight(handed, { fact: wrong.fact.id, reason, mass_g: { value: 1262, u: 0 } }),
  )
  const [first, second] = recorded!.facts
  expect(first).toMatchObject({ kind: 'put-right', voids: wrong.fact.id, instead: second!.id })
  expect(second).toMatchObject({
    kind: 'weighed',
    at: wrong.fact.at,
    weighing: { reading_g: 1262 },
  })
  // Nothing is left of having been surprising.
  expect(second).not.toHaveProperty('accepted_off')
  const { before, now } = recorded!.reels[0]!
  expect(now!.net.value).toBeGreaterThan(before!.net.value)
  const view = valueOf(await shelfView(handed.store))
  expect(view.standing.voided.has(wrong.fact.id)).toBe(true)
})

test('the right figure is tested like any other', async () => {
  const { handed, fact } = await weighed()
  valueOf(
    await weigh(handed, { reel: (await reelOf(handed, fact))!, weighing: { reading_g: 1262 } }),
  )
  const input = { fact, reason: 'misread', mass_g: { value: 900, u: 0 } }
  const surprising = valueOf(await putRight(handed, input))
  expect(surprising.recorded).toBeUndefined()
  expect(surprising.weighed?.surprise.surprising).toBe(true)
  expect(valueOf(await putRight(handed, { ...input, accept: true })).recorded).toBeDefined()
})

const reelOf = async (
  handed: Awaited<ReturnType<typeof bench>>,
  id: string,
): Promise<string | undefined> => {
  const fact = await handed.store.fact(id)
  return fact !== undefined && 'reel' in fact ? fact.reel : undefined
}

test('a right figure that was told coarsely is taken as such, as where it is weighed', async () => {
  const { handed, reel, fact } = await weighed()
  const told = { reading_g: 1300, lastPlace_g: 100 }
  const { fact: coarse } = valueOf(await weigh(handed, { reel, weighing: told, test: true }))
  const doubt = coarse.weighing.u_g
  expect(doubt).toBeGreaterThan(28)
  const { recorded } = valueOf(
    await putRight(handed, {
      fact,
      reason: 'misread',
      mass_g: { value: 1300, u: 0 },
      lastPlace_g: 100,
    }),
  )
  expect(recorded!.facts[1]).toMatchObject({ weighing: { reading_g: 1300, u_g: doubt } })
})

test('so is that of a piece cut off', async () => {
  const { handed, reel } = await weighed()
  const { facts } = valueOf(
    await recordOfReel(handed, reel, { kind: 'trimmed', mass_g: { value: 3, u: 0.3 } }),
  )
  const { recorded } = valueOf(
    await putRight(handed, {
      fact: facts[0]!.id,
      reason: 'misread',
      mass_g: { value: 4, u: 0 },
      lastPlace_g: 1,
    }),
  )
  const right = recorded!.facts.find(({ kind }) => kind === 'trimmed')
  expect(right).toMatchObject({ mass_g: { value: 4, u: 1 / Math.sqrt(12) } })
})

/** A reel that was weighed on a holder of 38 g. */
const onHolder = async () => {
  const { handed, reel } = await weighed()
  const { fact } = valueOf(
    await weigh(handed, { reel, weighing: { reading_g: 1300, extra_g: { value: 38, u: 1 } } }),
  )
  return { handed, reel, fact: fact.id }
}

/** The weighing that holds instead. */
const rightOf = async (handed: Awaited<ReturnType<typeof bench>>, told: object, fact: string) => {
  const input = { fact, reason: 'the wrong holder', ...told }
  const { recorded } = valueOf(await putRight(handed, input))
  const right = recorded!.facts[1]!
  return 'weighing' in right ? right.weighing : undefined
}

describe('what stood beside it', () => {
  test('was another: the reading stays as it was', async () => {
    const { handed, fact } = await onHolder()
    const extra_g = { value: 36, u: 0.5 }
    expect(await rightOf(handed, { extra_g }, fact)).toMatchObject({ reading_g: 1300, extra_g })
  })

  test('was nothing, and the reading is another, too', async () => {
    const { handed, fact } = await onHolder()
    const told = { mass_g: { value: 1262, u: 0 }, extra_g: { value: 0, u: 0.3 } }
    const right = await rightOf(handed, told, fact)
    expect(right).toMatchObject({ reading_g: 1262 })
    expect(right).not.toHaveProperty('extra_g')
  })

  test('was forgotten, of an empty carrier', async () => {
    const { handed, reel } = await weighed()
    const carrier = { reel, empty: true, another: true, weighing: { reading_g: 288 } }
    const { fact } = valueOf(await weigh(handed, { ...carrier, accept: true }))
    const extra_g = { value: 38, u: 0 }
    expect(await rightOf(handed, { extra_g, accept: true }, fact.id)).toMatchObject({
      reading_g: 288,
      extra_g,
    })
  })

  test('is tested like any weighing', async () => {
    const { handed, fact } = await onHolder()
    const input = { fact, reason: 'it was not there', extra_g: { value: 0, u: 0 } }
    const { recorded, weighed: tested } = valueOf(await putRight(handed, input))
    expect(recorded).toBeUndefined()
    expect(tested?.surprise.innovation).toBeCloseTo(38, 0)
    expect(tested?.fact.weighing).not.toHaveProperty('extra_g')
  })

  test('is of no fact that was not weighed', async () => {
    const { handed, reel } = await weighed()
    const { facts } = valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }))
    const told = { fact: facts[0]!.id, reason: 'misread', extra_g: { value: 38, u: 0 } }
    expect(codeOf(await putRight(handed, told))).toBe('nothing_instead')
  })
})

test('it was another reel', async () => {
  const { handed, reel, other, fact } = await weighed()
  const { recorded } = valueOf(await putRight(handed, { fact, reason: 'the other', reel: other }))
  expect(recorded!.facts.find(({ kind }) => kind === 'weighed')).toMatchObject({ reel: other })
  const view = valueOf(await shelfView(handed.store))
  expect(view.cards.get(reel)?.lastWeighing).toBeUndefined()
  expect(view.cards.get(other)?.lastWeighing).toBeDefined()
})

test('a put-right that is put right makes the fact hold again, figures and all', async () => {
  const { handed, reel, fact } = await weighed()
  const { now } = valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }))
    .reels[0]!
  const { recorded } = valueOf(await putRight(handed, { fact, reason: 'by mistake' }))
  const undo = recorded!.facts[0]!.id
  expect(codeOf(await putRight(handed, { fact, reason: 'again' }))).toBe('fact_void')
  const back = valueOf(await putRight(handed, { fact: undo, reason: 'it was right' })).recorded!
  expect(back.reels[0]!.now).toEqual(now)
})

test('a put-right that is put right is held against what was weighed since, and tells of its reel', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { grossWhenNew: { reading_g: 1250 } })
  const reel = reels[0]!
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  const drew = valueOf(await recordDraw(handed, { length_mm: 100_000, reels: [{ reel }] }))
  const draw = drew.facts.find(({ kind }) => kind === 'drew')!.id
  const put = async (fact: string, more = {}) =>
    putRight(handed, { fact, reason: 'so it was', ...more })
  const first = valueOf(await put(draw)).recorded!
  valueOf(await weigh(handed, { reel, weighing: { reading_g: 1250 } }))
  const undo = first.facts[0]!.id
  expect(codeOf(await put(undo))).toBe('weighed_since')
  const second = valueOf(await put(undo, { accept: true })).recorded!
  expect(second.reels.map((one) => one.reel)).toEqual([reel])
  // And the third, which lets it hold no more.
  const third = valueOf(await put(second.facts[0]!.id)).recorded!
  expect(third.reels.map((one) => one.reel)).toEqual([reel])
})

const openingOf = async (handed: Awaited<ReturnType<typeof bench>>, reel: string) =>
  valueOf(await shelfView(handed.store)).cards.get(reel)!.opened

const whenNew = async () => {
  const handed = await bench()
  await addKittiwake(handed, { grossWhenNew: { reading_g: 1263 } })
  const grossWhenNew = { reading_g: 1824 }
  const { reels } = await addKittiwake(handed, { grossWhenNew, accept: true })
  const reel = reels[0]!
  valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }))
  return { handed, reel, fact: (await openingOf(handed, reel)).id }
}

test('an opening that other facts hang on is put right: what was weighed when new', async () => {
  const { handed, reel, fact } = await whenNew()
  const input = { fact, reason: 'mistyped', mass_g: { value: 1284, u: 0 } }
  const right = valueOf(await putRight(handed, input)).recorded!
  expect(right.reels[0]!.now!.net.value).toBeLessThan(right.reels[0]!.before!.net.value - 100)
  expect((await openingOf(handed, reel)).gross_when_new?.reading_g).toBe(1284)
  // The right one is tested as it would have been when it arrived.
  const wrong = { fact: (await openingOf(handed, reel)).id, reason: 'worse' }
  const again = valueOf(await putRight(handed, { ...wrong, mass_g: { value: 1824, u: 0 } }))
  expect(again.recorded).toBeUndefined()
  expect(again.weighed?.surprise.innovation).toBeGreaterThan(400)
})

test('so are its label, colour, price, lot and whether it was part-used, and of nothing else', async () => {
  const { handed, reel, fact } = await weighed()
  const opening = await openingOf(handed, reel)
  const colour = { name: 'tar black' }
  const price = { amount: '21.90', currency: 'EUR' }
  const told = { label_net_g: 750, colour, part_used: true, price, lot: 'Q-0417' }
  valueOf(await putRight(handed, { fact: opening.id, reason: 'the small one', ...told }))
  const now = await openingOf(handed, reel)
  expect(now).toMatchObject({ ...told, reel, make: opening.make, at: opening.at })
  valueOf(await putRight(handed, { fact: now.id, reason: 'it was new', part_used: false }))
  expect(await openingOf(handed, reel)).not.toHaveProperty('part_used')
  expect(await openingOf(handed, reel)).toMatchObject({ label_net_g: 750, colour })
  const parts = [{ label_net_g: 750 }, { colour }, { part_used: true }, { price }, { lot: 'Q' }]
  for (const part of parts) {
    // oxlint-disable-next-line no-await-in-loop -- one after another, in one ledger
    expect(codeOf(await putRight(handed, { fact, reason: 'x', ...part }))).toBe('nothing_instead')
  }
})

test('so is the size of an empty carrier', async () => {
  const { handed } = await weighed()
  const carrier = { make: 'Kittiwake PLA', empty: true, weighing: { reading_g: 251 } }
  const { fact } = valueOf(await weigh(handed, carrier))
  const right = { fact: fact.id, reason: 'it held 3 kg', label_net_g: 3000 }
  const { recorded } = valueOf(await putRight(handed, right))
  expect(recorded?.facts.find(({ kind }) => kind === fact.kind)).toMatchObject({
    label_net_g: 3000,
  })
})

const withCarrier = async () => {
  const { handed, reel } = await weighed()
  const make = { maker: 'Gannet', name: 'PETG', material: 'PETG' }
  const { reels } = await addKittiwake(handed, { make })
  await addKittiwake(handed, { make: { name: 'Gannet PETG' }, label_net_g: 3000 })
  const carrier = { make: 'Kittiwake PLA', empty: true, weighing: { reading_g: 251 } }
  const { fact } = valueOf(await weigh(handed, carrier))
  const right = { fact: fact.id, reason: 'misread its label', accept: true }
  return { handed, reel, gannet: reels[0]!, right }
}
const carrierIn = (outcome: Awaited<ReturnType<typeof putRight>>) =>
  valueOf(outcome).recorded?.facts.find(({ kind }) => kind === 'carrier-weighed')

describe('of an empty carrier of no reel', () => {
  test('the size is asked for where its right make has several, and stays where it was told', async () => {
    const { handed, right } = await withCarrier()
    const make = 'Gannet PETG'
    expect(codeOf(await putRight(handed, { ...right, make }))).toBe('carrier_size_needed')
    const told = carrierIn(await putRight(handed, { ...right, make, label_net_g: 3000 }))
    expect(told).toMatchObject({ label_net_g: 3000 })
    const again = { ...right, fact: told!.id, make: 'Kittiwake PLA' }
    expect(carrierIn(await putRight(handed, again))).toMatchObject({ label_net_g: 3000 })
  })

  test('it can have been that of a reel, whose make and size it then has', async () => {
    const { handed, gannet: reel, right } = await withCarrier()
    const sized = carrierIn(await putRight(handed, { ...right, label_net_g: 3000 }))
    const own = carrierIn(await putRight(handed, { ...right, fact: sized!.id, reel }))
    const gannet = (await openingOf(handed, reel)).make
    expect(own).toMatchObject({ reel, make: gannet })
    expect(own).not.toHaveProperty('label_net_g')
    // Then neither can be put right but by the reel.
    for (const part of [{ label_net_g: 1000 }, { make: 'Kittiwake PLA' }]) {
      const put = { ...right, fact: own!.id, ...part }
      // oxlint-disable-next-line no-await-in-loop -- one after another, in one ledger
      expect(codeOf(await putRight(handed, put))).toBe('nothing_instead')
    }
  })

  test('nothing that is told beside its label is dropped', async () => {
    const { handed, right } = await withCarrier()
    const beside = [{ colour: { name: 'tar black' } }, { part_used: true }, { lot: 'Q-0417' }]
    for (const part of beside) {
      const put = { ...right, label_net_g: 3000, ...part }
      // oxlint-disable-next-line no-await-in-loop -- one after another, in one ledger
      expect(codeOf(await putRight(handed, put))).toBe('nothing_instead')
    }
  })
})

test('what makes no sense is refused, and nothing is written', async () => {
  const { handed, reel, fact } = await weighed()
  const { facts } = valueOf(await recordOfReel(handed, reel, { kind: 'moved', place: 'shelf' }))
  const moved = facts[0]!.id
  const before = await handed.store.facts()
  const opened = before[0]!.id
  const reason = 'test'
  expect(codeOf(await putRight(handed, { fact: moved, reason, mass_g: { value: 1, u: 0 } }))).toBe(
    'nothing_instead',
  )
  expect(codeOf(await putRight(handed, { fact: opened, reason }))).toBe('opened_needed')
  expect(codeOf(await putRight(handed, { fact: `${fact.slice(0, 8)}?`, reason }))).toBe('id_symbol')
  expect(await handed.store.facts()).toEqual(before)
})

const withPrinter = async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { count: 2 })
  valueOf(await addRow(handed, 'printer', { name: 'left', tail_mm: { value: 400, u: 50 } }))
  const [reel, other] = reels as [string, string]
  return { handed, reel, other }
}

test('the length told instead is what was fed, wherever the print stopped', async () => {
  const { handed, reel } = await withPrinter()
  const input = { print: smallPrint(), reels: [{ reel }], stoppedAt: { layer: 2 } }
  const { facts } = valueOf(await recordDraw(handed, input))
  const length_mm = { value: 180, u: 0 }
  const put = { fact: facts[0]!.id, reason: 'measured', length_mm }
  const recorded = valueOf(await putRight(handed, put)).recorded!
  const right = recorded.facts[0]!
  expect(right).toMatchObject({ kind: 'drew', length_mm: 180, print: input.print.id, tool: 0 })
  // The receipt calls the print by its file's name.
  expect(recorded.prints).toEqual([{ id: input.print.id, file: input.print.file }])
  expect(right).not.toHaveProperty('share')
  expect(right).not.toHaveProperty('stopped_at')
})

test('a draw put right is held against the reel that it was, without the wrong one', async () => {
  const { handed, reel, other } = await withPrinter()
  const draw = { length_mm: 250_000, reels: [{ reel }] }
  const { facts } = valueOf(await recordDraw(handed, draw))
  const fact = facts[0]!.id
  const longer = { fact, reason: 'typed wrong', length_mm: { value: 300_000, u: 0 } }
  const twice = { ...longer, length_mm: { value: 500_000, u: 0 } }
  expect(codeOf(await putRight(handed, twice))).toBe('drew_more_than_held')
  expect(codeOf(await putRight(handed, longer))).toBe('')
  const gone = { fact: 'none', reason: 'it was the other', reel: other }
  const now = valueOf(await shelfView(handed.store)).standing.facts.find(
    ({ kind }) => kind === 'drew',
  )
  expect(codeOf(await putRight(handed, { ...gone, fact: now!.id }))).toBe('')
})

test('what was accepted of the wrong fact is not taken over: the right one is tested again', async () => {
  const { handed, reel, fact } = await weighed()
  const wrong = valueOf(await weigh(handed, { reel, weighing: { reading_g: 900 }, accept: true }))
  expect(wrong.recorded?.facts[0]).toHaveProperty('accepted_off')
  const before = await handed.store.fact(fact)
  const at = new Date(Date.parse(before!.at) + 1).toISOString()
  const moved = { fact: wrong.fact.id, reason: 'another time', at }
  expect(valueOf(await putRight(handed, moved)).weighed?.surprise.surprising).toBe(true)
  const dry = await withPrinter()
  const event = { kind: 'ran-dry' } as const
  const { facts } = valueOf(await recordOfReel(dry.handed, dry.reel, event, { accept: true }))
  const tail = { fact: facts[0]!.id, reason: 'measured', length_mm: { value: 600, u: 1 } }
  expect(codeOf(await putRight(dry.handed, tail))).toBe('run_dry_surprising')
  expect(codeOf(await putRight(dry.handed, { ...tail, accept: true }))).toBe('')
})

test('what was recorded with a fact in one go is named when it is put right', async () => {
  const { handed, reel, other } = await withPrinter()
  const dry = { length_mm: 300_000, reels: [{ reel, ranDry: true }], accept: true }
  const [drew, ran] = valueOf(await recordDraw(handed, dry)).facts
  const put = { reason: 'another reel' }
  const { recorded } = valueOf(await putRight(handed, { ...put, fact: ran!.id }))
  expect(recorded!.notes).toEqual([expect.stringContaining(showId(drew!.id))])
  const cut = { length_mm: { value: 2000, u: 1 }, weighing: { reading_g: 6 } }
  const [measured, trimmed] = valueOf(await measureReel(handed, other, { cut })).facts
  const second = valueOf(await putRight(handed, { ...put, fact: measured!.id })).recorded!
  expect(second.notes).toEqual([expect.stringContaining(showId(trimmed!.id))])
  // Put right already, it is not named again.
  const third = valueOf(await putRight(handed, { ...put, fact: trimmed!.id })).recorded!
  expect(third.notes).toEqual([])
})

test('so is what the other tool of a print fed, and not that of the same print another time', async () => {
  const { handed, reel, other } = await withPrinter()
  const print = smallPrint([0, 1])
  const input = { print, reels: [{ reel }, { reel: other }] }
  valueOf(await recordDraw(handed, input))
  const [first, second] = valueOf(await recordDraw(handed, input)).facts
  const put = { fact: first!.id, reason: 'recorded twice' }
  expect(valueOf(await putRight(handed, put)).recorded!.notes).toEqual([
    `Recorded with it: ${showId(second!.id)} (drew). Put that right too if it does not hold.`,
  ])
})

const onSlate = async () => {
  const { handed, reel, other } = await withPrinter()
  const print = smallPrint()
  const { rows } = valueOf(await addWaiting(handed, { print }, { name: 'knob', copies: 2 }))
  const finished = valueOf(await recordDraw(handed, { print, reels: [{ reel }] })).facts[0]!.id
  return { handed, reel, other, print, waiting: rows[0]!.id, finished }
}

test('that a reel was emptied does not go without a word where it was weighed empty since', async () => {
  const handed = await bench()
  const { reels } = await addKittiwake(handed, { grossWhenNew: { reading_g: 1240 } })
  const reel = reels[0]!
  const { facts } = valueOf(await recordOfReel(handed, reel, { kind: 'emptied' }))
  const seen = valueOf(await weigh(handed, { reel, weighing: { reading_g: 240 } }))
  expect(seen.recorded).toBeDefined()
  const put = { fact: facts[0]!.id, reason: 'the other reel' }
  expect(codeOf(await putRight(handed, put))).toBe('weighed_since')
  expect(codeOf(await putRight(handed, { ...put, accept: true }))).toBe('')
})

test('of an empty carrier put right wrongly that is named, and not what it contradicts', async () => {
  const handed = await bench()
  const empties: string[] = []
  for (const reading_g of [240, 242, 241]) {
    // oxlint-disable-next-line no-await-in-loop -- one after the other, as at a bench
    const { reels } = await addKittiwake(handed, {
      grossWhenNew: { reading_g: reading_g + 1000 },
      accept: true,
    })
    const empty = { reel: reels[0]!, empty: true, weighing: { reading_g }, accept: true }
    // oxlint-disable-next-line no-await-in-loop -- as above
    empties.push(valueOf(await weigh(handed, empty)).fact.id)
  }
  const mass_g = { value: 640, u: 0 }
  const put = { fact: empties[0]!, reason: 'misread', mass_g, accept: true }
  const { weighed: right } = valueOf(await putRight(handed, put))
  // The weighing when new is so by what was put right just now, and not brought to light by it.
  expect(right!.contradicted).toEqual([])
  const listed = listReels(valueOf(await shelfView(handed.store)), () => true, false)
  expect(listed.flatMap(({ contradicted }) => contradicted ?? [])).toMatchObject([
    { fact: right!.fact.id, reading_g: 640, what: 'empty-carrier' },
  ])
})

test('the copy that a finished print did is named where that print is taken back, and how it waits again', async () => {
  const { handed, print, reel, waiting, finished } = await onSlate()
  const cut = { print, reels: [{ reel }], stoppedAt: { layer: 2 } }
  const stopped = valueOf(await recordDraw(handed, cut)).facts[0]!.id
  const notesOf = async (fact: string): Promise<readonly string[]> =>
    valueOf(await putRight(handed, { fact, reason: 'it never ran' })).recorded!.notes
  // One that was cut short did none.
  expect(await notesOf(stopped)).toEqual([])
  const [note, ...more] = await notesOf(finished)
  expect(more).toEqual([])
  expect(note).toContain('counts 1 of 2 copies of knob as printed')
  expect(note).toContain(`reelreckon slate change ${waiting} --done 0`)
})

test('it stays done where only the reel was another, and is asked about where the length was', async () => {
  const first = await onSlate()
  const another = { fact: first.finished, reason: 'the other', reel: first.other }
  expect(valueOf(await putRight(first.handed, another)).recorded!.notes).toEqual([])
  const second = await onSlate()
  const length_mm = { value: 180, u: 0 }
  const shorter = { fact: second.finished, reason: 'it stopped', length_mm }
  expect(valueOf(await putRight(second.handed, shorter)).recorded!.notes).toEqual([
    expect.stringContaining('of knob as printed'),
  ])
})

test.each([{ at: new Date(noon).toISOString() }, { mass_g: { value: 1, u: 0 } }])(
  'nothing else can hold in place of a put-right: %j',
  async (instead) => {
    const { handed, fact } = await weighed()
    const { recorded } = valueOf(await putRight(handed, { fact, reason: 'by mistake' }))
    const undo = { fact: recorded!.facts[0]!.id, reason: 'it was right' }
    expect(codeOf(await putRight(handed, { ...undo, ...instead }))).toBe('nothing_instead')
  },
)
