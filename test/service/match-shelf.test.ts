import { beforeAll, describe, expect, test } from 'vitest'
import { harbourLedger } from '../../demo/ledger/harbour.ts'
import { type MatchJson, matchJson, type PrintRowJson } from '../../src/contract/index.ts'
import { matchSlate } from '../../src/match/index.ts'
import {
  addRow,
  addWaiting,
  changeWaiting,
  keptPlan,
  type MatchAsked,
  matchShelf,
  recordDraw,
  recordOfReel,
} from '../../src/service/index.ts'
import { addKittiwake, bench, codeOf, smallPrint, valueOf } from '../shelf-bench.ts'

const run = (slate: Parameters<typeof matchSlate>[0]) => matchSlate(slate)

const long = (lengths: readonly number[]): number[] => lengths.map((each) => each * 1333)

/** A print that takes about 1200 g of PLA: its draw is 1333 times that of the small one. */
const longPrint = (): PrintRowJson => {
  const print = smallPrint()
  const [group] = print.families
  const [tool] = group!.tools
  const longer = {
    ...tool!,
    peak_mm: tool!.peak_mm * 1333,
    layer_end_mm: long(tool!.layer_end_mm),
    curve: { ...tool!.curve, draw_mm: long(tool!.curve.draw_mm) },
  }
  const families = [{ ...group!, tools: [longer] }]
  const layers = { ...print.layers, end_time_s: [3600, 7200, 10_800] }
  const time = { planned_s: 10_800, family: 'host', corner: 'jerk', waits: [] }
  return { ...print, id: 'cd'.repeat(32), file: 'long.gcode', families, layers, time }
}

const ready = async (reels = 2) => {
  const handed = await bench()
  const { reels: ids } = await addKittiwake(handed, { count: reels })
  valueOf(await addRow(handed, 'printer', { name: 'left' }))
  return { handed, ids }
}

const match = async (
  handed: Awaited<ReturnType<typeof bench>>,
  asked: MatchAsked = {},
  keep = false,
): Promise<MatchJson> => matchJson.parse(valueOf(await matchShelf(handed, asked, run, { keep })))

test('every copy that waits is there once, and none twice', async () => {
  const { handed } = await ready()
  valueOf(await addWaiting(handed, { print: smallPrint() }, { copies: 3 }))
  const { copies, reels } = await match(handed)
  expect(copies.map(({ copy }) => copy)).toEqual([1, 2, 3])
  const duties = reels.flatMap((reel) => reel.duties.map(({ copy }) => copy))
  expect(duties.toSorted((a, b) => a - b)).toEqual([1, 2, 3])
  for (const { chance } of copies) expect(chance).toBeGreaterThanOrEqual(0.95)
})

test('where nothing waits, or nothing prints, that is said', async () => {
  const handed = await bench()
  expect(codeOf(await matchShelf(handed, {}, run))).toBe('nothing_waits')
  await addKittiwake(handed)
  valueOf(await addWaiting(handed, { print: smallPrint() }, {}))
  expect(codeOf(await matchShelf(handed, {}, run))).toBe('no_printer')
})

test('a copy that was printed keeps the numbers of the others', async () => {
  const { handed, ids } = await ready()
  const print = smallPrint()
  valueOf(await addWaiting(handed, { print }, { copies: 3 }))
  valueOf(await recordDraw(handed, { print, reels: [{ reel: ids[0]! }] }))
  expect((await match(handed)).copies.map(({ copy }) => copy)).toEqual([2, 3])
})

test('locks, forbidden reels and dropped prints are kept to', async () => {
  const { handed, ids } = await ready()
  valueOf(await addWaiting(handed, { print: smallPrint() }, { copies: 2 }))
  const [one, other] = ids as [string, string]
  const locked = await match(handed, { locks: [{ waiting: 'small', copy: 2, reel: one }] })
  const second = locked.copies.find(({ copy }) => copy === 2)!
  expect(second.duties[0]).toMatchObject({ reel: one, why: ['You locked it.'] })
  const barred = await match(handed, { forbidden: [{ reel: other }] })
  expect(barred.copies.flatMap(({ duties }) => duties.map(({ reel }) => reel))).toEqual([one, one])
  expect(codeOf(await matchShelf(handed, { dropped: ['small'] }, run))).toBe('nothing_waits')
  expect(codeOf(await matchShelf(handed, { forbidden: [{ reel: '22222' }] }, run))).toBe(
    'reel_unknown',
  )
})

test('locks that can not all be kept to are refused', async () => {
  const { handed, ids } = await ready()
  const [one, other] = ids as [string, string]
  valueOf(await addWaiting(handed, { print: smallPrint() }, { copies: 2 }))
  const locks = [one, one, other].map((reel) => ({ waiting: 'small', copy: 2, reel }))
  const refused = await matchShelf(handed, { locks }, run)
  expect(codeOf(refused)).toBe('locks_contradict')
  expect(refused.ok ? '' : refused.refusal.message).toBe(
    `small is locked to ${one} (Kittiwake PLA) and ${other} (Kittiwake PLA): as it is not to be changed in mid-print, only one reel can feed it. Leave out a lock, or allow it 1 change in mid-print.`,
  )
  expect((await match(handed, { locks: locks.slice(0, 2) })).copies).toHaveLength(2)
  const { notes } = await match(handed, { locks: [{ waiting: 'small', copy: 3, reel: one }] })
  expect(notes).toEqual([
    'To lock copy 3 of small changes nothing: no such copy waits to be planned.',
  ])
})

test('what may be wished for in place of a reel are the others that fit and are not forbidden', async () => {
  const { handed, ids } = await ready(3)
  const [one, other, third] = ids as [string, string, string]
  valueOf(await recordDraw(handed, { length_mm: 100_000, reels: [{ reel: other }] }))
  await addKittiwake(handed, { make: { name: 'Gannet PETG', maker: 'Gannet', material: 'PETG' } })
  valueOf(
    await addWaiting(handed, { print: smallPrint() }, { tools: [{ tool: 0, material: 'pla' }] }),
  )
  valueOf(
    await addWaiting(handed, { print: longPrint() }, { tools: [{ tool: 0, material: 'petg' }] }),
  )
  const othersOf = async (asked: MatchAsked) => {
    const { copies } = await match(handed, {
      ...asked,
      locks: [{ waiting: 'small', reel: third }],
    })
    return copies.find(({ name }) => name === 'small')!.duties[0]!.others
  }
  expect(await othersOf({})).toEqual([one, other])
  expect(await othersOf({ forbidden: [{ reel: one, waiting: 'small' }] })).toEqual([other])
})

test('a lock on a reel that does not fit is refused, and not planned around', async () => {
  const { handed, ids } = await ready()
  const wanted = { tools: [{ tool: 0, material: 'petg' }] }
  valueOf(await addWaiting(handed, { print: smallPrint() }, wanted))
  const refused = await matchShelf(handed, { locks: [{ waiting: 'small', reel: ids[0]! }] }, run)
  expect(codeOf(refused)).toBe('lock_does_not_fit')
  expect(refused.ok ? '' : refused.refusal.message).toContain('small wants PETG: reel')
})

test('a lock on a reel that is forbidden is refused: one of the two can not be kept to', async () => {
  const { handed, ids } = await ready()
  const [one] = ids as [string, string]
  valueOf(await addWaiting(handed, { print: smallPrint() }, { copies: 2 }))
  const asked = (asking: MatchAsked) => matchShelf(handed, asking, run)
  const locks = [{ waiting: 'small', copy: 2, reel: one }]
  const everywhere = await asked({ locks, forbidden: [{ reel: one }] })
  expect(codeOf(everywhere)).toBe('lock_forbidden')
  expect(everywhere.ok ? '' : everywhere.refusal.message).toBe(
    `small can not be locked to reel ${one} (Kittiwake PLA): it is forbidden for every print. Leave out the lock, or no longer forbid it.`,
  )
  const here = await asked({ locks, forbidden: [{ reel: one, waiting: 'small' }] })
  expect(here.ok ? '' : here.refusal.message).toContain('it is forbidden for small.')
})

test('of a lock on a reel that is gone, or was never told of, it is said why', async () => {
  const { handed, ids } = await ready(3)
  const [retired, emptied] = ids as [string, string, string]
  valueOf(await addWaiting(handed, { print: smallPrint() }, {}))
  valueOf(await recordOfReel(handed, retired, { kind: 'retired' }))
  valueOf(await recordOfReel(handed, emptied, { kind: 'emptied' }))
  const said = async (reel: string): Promise<string> => {
    const refused = await matchShelf(handed, { locks: [{ waiting: 'small', reel }] }, run)
    expect(codeOf(refused)).toBe('lock_does_not_fit')
    return refused.ok ? '' : refused.refusal.message
  }
  expect(await said(retired)).toBe(
    `small can not be locked to reel ${retired} (Kittiwake PLA), which left the shelf. Lock it to a reel in use, or put right the fact that says so.`,
  )
  expect(await said(emptied)).toContain('(Kittiwake PLA), which is empty.')
  expect(await said('new 1')).toContain('no new reel of that number is told of')
  const { notes } = await match(handed, { forbidden: [{ reel: retired }, { reel: ids[2]! }] })
  expect(notes).toEqual([
    `To forbid reel ${retired} (Kittiwake PLA) changes nothing: it left the shelf.`,
  ])
})

test('where no reel may be taken it is told which would do, and what keeps it', async () => {
  const { handed, ids } = await ready()
  const [one, other] = ids as [string, string]
  const lacks = async (asked: MatchAsked) => {
    const [copy] = (await match(handed, asked)).copies
    return { ...copy!, words: copy!.missing.map(({ words }) => words) }
  }
  valueOf(await addWaiting(handed, { print: smallPrint() }, {}))
  expect((await lacks({ forbidden: [{ reel: one }, { reel: other }] })).words).toEqual([
    `No reel of any filament is left: ${other} and ${one} are forbidden.`,
  ])
  valueOf(await changeWaiting(handed, 'small', { tools: [{ tool: 0, reel: one }] }))
  const only = await lacks({ forbidden: [{ reel: one }] })
  expect(only).toMatchObject({
    words: [`It is to be fed from reel ${one} only, which is forbidden.`],
    remedies: [
      { words: `No longer forbid ${one}: reels that are there then do it.`, command: null },
      {
        words: `Let other reels feed it as well: ${other} then does it.`,
        command: `slate change ${only.waiting} --forget tools`,
      },
    ],
  })
  valueOf(await recordOfReel(handed, one, { kind: 'retired' }))
  expect((await lacks({})).words).toEqual([
    `It is to be fed from reel ${one} only, which left the shelf.`,
  ])
})

test('a plan that was kept is told of, and what differs from it', async () => {
  const { handed, ids } = await ready()
  valueOf(await addWaiting(handed, { print: smallPrint() }, {}))
  expect((await keptPlan(handed)).kept_at).toBe(null)
  const first = await match(handed, { locks: [{ waiting: 'small', reel: ids[1]! }] }, true)
  expect(first.kept).toBe(true)
  expect((await keptPlan(handed)).choices).toMatchObject([{ copy: 1, tool: 0, reel: ids[1] }])
  expect((await match(handed)).copies[0]).toMatchObject({ differs: false })
  const moved = await match(handed, { locks: [{ waiting: 'small', reel: ids[0]! }] })
  expect(moved.copies[0]).toMatchObject({ differs: true })
})

/** Each of two reels is left with about 970 g; the print takes about 1200 g. */
const short = async () => {
  const { handed, ids } = await ready(2)
  const [one, other] = ids as [string, string]
  valueOf(await recordDraw(handed, { length_mm: 10_000, reels: [{ reel: one }] }))
  valueOf(await recordDraw(handed, { length_mm: 10_000, reels: [{ reel: other }] }))
  valueOf(await addWaiting(handed, { print: longPrint() }, { changes: { most: 1 } }))
  return handed
}

describe('a print that no single reel does', () => {
  test('is done by two, with a change at a layer end and a note for it', async () => {
    const plan = await match(await short())
    const [copy] = plan.copies
    expect(copy?.printer).not.toBe(null)
    expect(copy?.changes).toHaveLength(1)
    const [change] = copy!.changes
    // A minute of preparation, as nobody has told better.
    expect(change!.clock!.likely_s).toBeCloseTo(3600 * change!.after_layer + 60, -1)
    expect(copy!.note).toMatch(/ m drawn, about \d h( \d+ min)? after the start\): take/)
    expect(change).toMatchObject({
      tool: 0,
      from: copy!.duties[0]!.reel,
      to: copy!.duties[1]!.reel,
    })
    expect([1, 2]).toContain(change!.after_layer)
    expect(change!.drawn_mm).toBeCloseTo(change!.after_layer * 100 * 1333, 6)
    // 200 mm of PLA.
    expect(change!.cost_g.value).toBeCloseTo(0.6, 1)
    expect(copy!.note).toContain(`after layer ${change!.after_layer}`)
    expect(copy!.note).toContain('hot')
  })

  test('keeps the reels of its chain that are locked, one or all', async () => {
    const handed = await short()
    const reels = (await match(handed)).copies[0]!.duties.map(({ reel }) => reel)
    for (const locked of [reels.slice(0, 1), reels.slice(1), reels]) {
      const locks = locked.map((reel) => ({ waiting: 'long', reel }))
      // oxlint-disable-next-line no-await-in-loop -- one after another
      const [copy] = (await match(handed, { locks })).copies
      expect(copy!.duties.map(({ reel }) => reel)).toEqual(expect.arrayContaining(locked))
    }
  })

  test('is changed at an hour that goes with how long it takes as told', async () => {
    const handed = await short()
    const [planned] = (await match(handed)).copies[0]!.changes
    valueOf(await changeWaiting(handed, 'long', { duration_h: 12 }))
    const [copy] = (await match(handed)).copies
    const [told] = copy!.changes
    expect(told!.after_layer).toBe(planned!.after_layer)
    // Planned are three hours, one a layer.
    const then = (12 * 3600 * told!.after_layer) / 3
    expect(told!.clock).toEqual({ early_s: then, likely_s: then, late_s: then })
    expect(copy!.note).toContain(`about ${4 * told!.after_layer} h after the start`)
  })

  test('is not served where a change is not allowed, and what would do it is told, the cheapest first', async () => {
    const handed = await short()
    valueOf(await changeWaiting(handed, 'long', { changes: null }))
    const [copy] = (await match(handed)).copies
    expect(copy?.printer).toBe(null)
    expect(copy?.missing[0]?.short_g).toBeGreaterThan(20)
    expect(copy?.remedies[0]).toEqual({
      words: 'Allow a change of reels in mid-print: reels that are there then do it.',
      command: `slate change ${copy?.waiting} --changes 1`,
    })
    expect(copy?.remedies.at(-1)?.words).toContain('Get a new reel')
    // Who has had enough is not kept waiting for what must be tried.
    const ended = await matchShelf(handed, {}, run, { signal: AbortSignal.abort() })
    expect(valueOf(ended).copies[0]?.remedies).toEqual([
      copy?.remedies.at(-1),
      { words: 'What else would do was not tried.', command: null },
    ])
  })

  test('is told of no reel in another colour where it wants one reel only', async () => {
    const { handed, ids } = await ready()
    const [one] = ids as [string, string]
    // Of 1000 g it leaves about 400 g; the print takes about 540 g.
    valueOf(await recordDraw(handed, { length_mm: 200_000, reels: [{ reel: one }] }))
    const print = smallPrint([0], 30_000)
    valueOf(await addWaiting(handed, { print }, { tools: [{ tool: 0, reel: one }] }))
    const [copy] = (await match(handed)).copies
    expect(copy?.printer).toBe(null)
    expect(JSON.stringify(copy?.remedies)).not.toContain('In another colour')
  })

  test('is done by a new reel, as if there were one', async () => {
    const handed = await short()
    valueOf(await changeWaiting(handed, 'long', { changes: null }))
    const plan = await match(handed, { new_reels: [{ make: 'Kittiwake PLA', label_net_g: 2000 }] })
    expect(plan.copies[0]?.duties[0]).toMatchObject({ reel: 'new 1' })
    expect(plan.reels.find(({ reel }) => reel === 'new 1')).toMatchObject({ imagined: true })
  })
})

/** Three reels of about 970 g, 400 g and 400 g; a print of about 540 g that is locked to one of the small. */
const oneLarge = async () => {
  const { handed, ids } = await ready(3)
  const [large, small, other] = ids as [string, string, string]
  const drew = async (reel: string, length_mm: number) =>
    valueOf(await recordDraw(handed, { length_mm, reels: [{ reel }] }))
  await drew(large, 10_000)
  await drew(small, 200_000)
  await drew(other, 200_000)
  valueOf(await addWaiting(handed, { print: smallPrint([0], 30_000) }, { name: 'fender' }))
  return { handed, large, small, other }
}
const lackingOf = async (handed: Awaited<ReturnType<typeof bench>>, asked: MatchAsked) => {
  const [copy] = (await match(handed, asked)).copies
  expect(copy?.printer).toBe(null)
  return { ...copy!, says: copy!.remedies.map(({ words }) => words) }
}

describe('what is told to help does, and is true of what was wished', () => {
  test('a lock that stands in the way: no new reel helps while it holds', async () => {
    const { handed, small } = await oneLarge()
    const { missing, says } = await lackingOf(handed, {
      locks: [{ waiting: 'fender', reel: small }],
    })
    expect(missing[0]?.words).toMatch(
      new RegExp(`; ${small}, to which it is locked, lacks \\d+ g to be sure enough\\.$`),
    )
    expect(says).toEqual([
      `No longer lock it to ${small}: reels that are there then do it.`,
      'Allow a change of reels in mid-print: reels that are there then do it.',
    ])
  })

  test('a forbidden reel, and with it the lock where both stand in the way', async () => {
    const { handed, large, small } = await oneLarge()
    const barred = await lackingOf(handed, { forbidden: [{ reel: large }] })
    expect(barred.missing[0]?.words).toContain(
      ', the nearest of those that are not forbidden, lacks',
    )
    expect(barred.says[0]).toBe(`No longer forbid ${large}: reels that are there then do it.`)
    const both = await lackingOf(handed, {
      locks: [{ waiting: 'fender', reel: small }],
      forbidden: [{ reel: large }],
    })
    expect(both.says[0]).toBe(
      `No longer lock it to ${small} and no longer forbid ${large}: reels that are there then do it.`,
    )
    expect(both.says.join(' ')).not.toContain('Get a new reel')
  })

  test('a new reel with just what is told is enough, and with some grams less is not', async () => {
    const { handed, large } = await oneLarge()
    const forbidden = [{ reel: large }]
    const { says } = await lackingOf(handed, { forbidden })
    const enough = Number(/: (\d+) g of Kittiwake PLA are enough\.$/.exec(says.at(-1) ?? '')?.[1])
    const served = async (label_net_g: number) =>
      (await match(handed, { forbidden, new_reels: [{ make: 'Kittiwake PLA', label_net_g }] }))
        .copies[0]?.printer !== null
    expect(await served(enough)).toBe(true)
    expect(await served(enough - 3)).toBe(false)
  })

  test('of many prints each is told what helps it, the last as the first', async () => {
    const { handed, ids } = await ready(1)
    valueOf(await recordDraw(handed, { length_mm: 200_000, reels: [{ reel: ids[0]! }] }))
    for (let i = 1; i <= 12; i++) {
      const tools = [{ tool: 0, colours: [`colour ${i}`] }]
      // oxlint-disable-next-line no-await-in-loop -- one after the other
      const added = await addWaiting(handed, { print: smallPrint() }, { name: `part ${i}`, tools })
      valueOf(added)
    }
    const { copies, reels } = await match(handed)
    expect(copies).toHaveLength(12)
    // It fits nothing as the prints are wanted.
    expect(reels).toEqual([])
    for (const { name, remedies } of copies) {
      expect(remedies[0]?.words, name).toBe(`In another colour ${ids[0]} then does it.`)
      expect(remedies.at(-1)?.words, name).toMatch(
        /^Get a new reel of colour \d+: \d+ g of .* are enough, if no other print takes it\.$/,
      )
    }
  })
})

describe('the bench at the harbour', () => {
  let plan: MatchJson
  beforeAll(async () => {
    const handed = await bench()
    valueOf(await handed.store.append(harbourLedger()))
    plan = await match({ ...handed, now: () => Date.UTC(2025, 9, 18) })
  }, 60_000)

  test('each print gets what it wants, and reels as sure as is asked', () => {
    const rows = new Map(
      harbourLedger().flatMap((record) =>
        record.kind === 'waiting' ? [[record.id, record] as const] : [],
      ),
    )
    expect(plan.copies.length).toBe([...rows.values()].reduce((sum, row) => sum + row.copies, 0))
    for (const { waiting, duties, chance, printer } of plan.copies) {
      if (printer === null) continue
      expect(chance).toBeGreaterThanOrEqual(plan.confidence)
      for (const { tool, reel_name: name } of duties) {
        const colours = rows.get(waiting)?.tools?.find((each) => each.tool === tool)?.colours
        if (colours) expect(colours.some((colour) => name.includes(colour))).toBe(true)
      }
    }
    for (const { chance } of plan.reels) expect(chance).toBeGreaterThanOrEqual(plan.confidence)
  })

  test('why each reel is told', () => {
    const reasons = plan.copies.flatMap(({ duties }) => duties.flatMap(({ why }) => why))
    expect(reasons.length).toBeGreaterThan(10)
    expect(reasons.join(' ')).toContain('would have to be opened for it')
  })
})

test('what is late is known from planned times where nobody has told how long it takes', async () => {
  const { handed } = await ready()
  const time = { planned_s: 7200, family: 'host', corner: 'jerk', waits: [] }
  const due = (hours: number) => new Date(handed.now() + hours * 3_600_000).toISOString()
  const late = async (told: Parameters<typeof addWaiting>[2]): Promise<readonly boolean[]> => {
    const { rows } = valueOf(await addWaiting(handed, { print: { ...smallPrint(), time } }, told))
    const { copies } = await match(handed)
    valueOf(await changeWaiting(handed, (rows[0] as { id: string }).id, { off: true }))
    return copies.map((copy) => copy.late)
  }
  expect(await late({ due: due(3) })).toEqual([false])
  // Two hours on average: it is likelier late than the plan may risk.
  expect(await late({ due: due(2.1) })).toEqual([true])
  expect(await late({ due: due(3), copies: 2 })).toEqual([false, true])
  // What a person told goes before what was planned.
  expect(await late({ due: due(2.1), duration_h: 1 })).toEqual([false])
})

test('a printer at work begins when it is done', async () => {
  const { handed } = await ready()
  const time = { planned_s: 7200, family: 'host', corner: 'jerk', waits: [] }
  const hence = (hours: number) => new Date(handed.now() + hours * 3_600_000).toISOString()
  valueOf(await addWaiting(handed, { print: { ...smallPrint(), time } }, { due: hence(5) }))
  const firstWhere = async (until: string) =>
    (await match(handed, { busy: [{ printer: 'LEFT', until }] })).copies[0]
  expect(await firstWhere(hence(1.5))).toMatchObject({
    begins_h: expect.closeTo(1.5, 1),
    late: false,
  })
  expect(await firstWhere(hence(4))).toMatchObject({ begins_h: expect.closeTo(4, 1), late: true })
  expect(await firstWhere(hence(-3))).toMatchObject({ begins_h: 0, late: false })
  const busy = [{ printer: 'right', until: hence(1) }]
  expect(codeOf(await matchShelf(handed, { busy }, run))).toBe('printer_unknown')
})

const soon = ({ now }: { readonly now: () => number }, hours: number): string =>
  new Date(now() + hours * 3_600_000).toISOString()

describe('a print that runs', () => {
  test('comes off its reel before all else, and the copy that runs is not planned anew', async () => {
    const { handed, ids } = await ready(1)
    const [reel] = ids as [string]
    // Of 1000 g each takes about 540 g.
    const print = smallPrint([0], 30_000)
    valueOf(await addWaiting(handed, { print }, { name: 'bollard', copies: 2 }))
    expect((await match(handed)).copies.filter(({ printer }) => printer !== null)).toHaveLength(1)
    for (const named of ['bollard', print.file, print.id.slice(0, 12)]) {
      const busy = [
        { printer: 'left', until: soon(handed, 3), print: named, reels: [{ reel, tool: 0 }] },
      ]
      // oxlint-disable-next-line no-await-in-loop -- one after another
      const plan = await match(handed, { busy })
      expect(plan.copies).toMatchObject([{ copy: 2, printer: null }])
      expect(plan.reels[0]!.running).toMatchObject([
        { printer_name: 'left', file: print.file, tool: 0 },
      ])
      expect(plan.notes.join(' ')).toContain('copy 1 runs on left and is not planned anew')
    }
  })

  test('that its reel may not last for is told', async () => {
    const { handed, ids } = await ready()
    const [reel] = ids as [string]
    valueOf(await addWaiting(handed, { print: smallPrint() }, {}))
    valueOf(
      await addWaiting(
        handed,
        { print: { ...smallPrint([0], 66_000), id: 'cd'.repeat(32) } },
        { name: 'large' },
      ),
    )
    const busy = [{ printer: 'left', until: soon(handed, 3), print: 'large', reels: [{ reel }] }]
    const { notes, copies } = await match(handed, { busy })
    expect(notes.join(' ')).toMatch(
      /which runs on left, takes 11\d\d g, and .* it lasts with .* only/,
    )
    expect(copies[0]!.duties[0]!.reel).not.toBe(reel)
  })

  test('beside another one on its printer or from its reel is noticed, and both are counted', async () => {
    const { handed, ids } = await ready()
    const [reel, other] = ids as [string, string]
    valueOf(await addRow(handed, 'printer', { name: 'right' }))
    const print = smallPrint()
    valueOf(await addWaiting(handed, { print }, { copies: 3 }))
    const runs = (printer: string, from: string) => ({
      printer,
      until: soon(handed, 3),
      print: print.file,
      reels: [{ reel: from }],
    })
    const apart = await match(handed, { busy: [runs('left', reel), runs('right', other)] })
    expect(apart.notes.join(' ')).not.toContain('What both take is counted')
    const oneReel = await match(handed, { busy: [runs('left', reel), runs('right', reel)] })
    expect(oneReel.notes).toContain(
      `${reel} is told to run on left and on right. What both take is counted; write down which of them has ended.`,
    )
    expect(oneReel.reels.find((each) => each.reel === reel)!.running).toHaveLength(2)
    const onePrinter = await match(handed, { busy: [runs('left', reel), runs('left', other)] })
    expect(onePrinter.notes.join(' ')).toContain('More than one print is told to run on left.')
  })

  test('must say from which reel, and of which it is not told that is noticed', async () => {
    const { handed, ids } = await ready(1)
    const [reel] = ids as [string]
    valueOf(await recordDraw(handed, { length_mm: 1000, reels: [{ reel }], printer: 'left' }))
    valueOf(await addRow(handed, 'printer', { name: 'right' }))
    valueOf(await addWaiting(handed, { print: smallPrint() }, { printers: ['right'] }))
    const asked = (more: object) =>
      matchShelf(handed, { busy: [{ printer: 'left', until: soon(handed, 3), ...more }] }, run)
    expect(codeOf(await asked({ print: 'small' }))).toBe('running_reels_needed')
    expect(codeOf(await asked({ print: 'none such' }))).toBe('running_unknown')
    expect(codeOf(await asked({ print: 'small', reels: [{ tool: 3, reel }] }))).toBe(
      'tool_not_used',
    )
    const { notes, copies } = valueOf(await asked({}))
    expect(copies[0]).toMatchObject({ waits_for: reel })
    expect(notes.join(' ')).toContain(`${reel} was last on left, which is at work`)
    const told = valueOf(await asked({ reels: [{ reel }] }))
    expect(told.notes.join(' ')).toContain('What runs on left was not told')
  })
})

/** Three layers of about 180 g each; three reels; two printers, it runs on the left one. */
const changed = async (tools: readonly number[] = [0]) => {
  const { handed, ids } = await ready(3)
  valueOf(await addRow(handed, 'printer', { name: 'right' }))
  const print = smallPrint(tools, 30_000)
  const small = { ...smallPrint(), id: 'cd'.repeat(32), file: 'other.gcode' }
  valueOf(await addWaiting(handed, { print }, { name: 'bollard' }))
  valueOf(await addWaiting(handed, { print: small }, { printers: ['right'], duration_h: 1 }))
  type Told = NonNullable<NonNullable<MatchAsked['busy']>[number]['reels']>
  const asked = (reels: Told, more: MatchAsked = {}) =>
    matchShelf(
      handed,
      {
        busy: [{ printer: 'left', until: soon(handed, 3), print: 'bollard', reels }],
        ...more,
      },
      run,
    )
  return { handed, ids: ids as [string, string, string], asked }
}

describe('a print that runs in which reels were changed', () => {
  test('holds back of each reel what it feeds', async () => {
    const { ids, asked } = await changed()
    const [one, two, three] = ids
    const { reels } = valueOf(
      await asked([
        { reel: one },
        { reel: two, after_layer: 1 },
        // It had been put aside, and came on again.
        { reel: one, after_layer: 2 },
      ]),
    )
    const runs = (id: string) => reels.find(({ reel }) => reel === id)?.running
    const layer = expect.closeTo(180, -1)
    expect(runs(one)).toMatchObject([
      { after_layer: 0, until_layer: 1, needed_g: { value: layer } },
      { after_layer: 2, until_layer: null, needed_g: { value: layer } },
    ])
    expect(runs(two)).toMatchObject([
      { after_layer: 1, until_layer: 2, needed_g: { value: layer } },
    ])
    expect(runs(three)).toEqual([])
    const first = reels.find(({ reel }) => reel === two)
    expect(first!.holds_g.value - first!.left_g.value).toBeCloseTo(
      [...first!.running, ...first!.duties].reduce((sum, each) => sum + each.needed_g.value, 0),
      1,
    )
  })

  test('has the last of them on its printer; the one before can print elsewhere at once', async () => {
    const { ids, asked } = await changed()
    const [one, two] = ids
    const lockedTo = async (reel: string) =>
      valueOf(
        await asked([{ reel: one }, { reel: two, after_layer: 2 }], {
          locks: [{ waiting: 'other', reel }],
        }),
      ).copies[0]
    expect(await lockedTo(one)).toMatchObject({ begins_h: 0, waits_for: null })
    expect(await lockedTo(two)).toMatchObject({
      begins_h: expect.closeTo(3, 1),
      waits_for: two,
      waits_at: 'left',
    })
  })

  test('that came off one printer may run on another: that is nothing to ask about', async () => {
    const { handed, ids, asked } = await changed()
    const [one, two, three] = ids
    const onBoth = async (reels: Parameters<typeof asked>[0]) => {
      const right = { printer: 'right', print: 'other', reels: [{ reel: one }] }
      const left = { printer: 'left', print: 'bollard', reels }
      valueOf(await addWaiting(handed, { print: longPrint() }, { name: `${reels.length}` }))
      return valueOf(await matchShelf(handed, { busy: [right, left] }, run)).notes.join(' ')
    }
    expect(await onBoth([{ reel: one }, { reel: two, after_layer: 1 }])).not.toContain(
      'is told to run on',
    )
    expect(
      await onBoth([{ reel: two }, { reel: three, after_layer: 1 }, { reel: one, after_layer: 2 }]),
    ).toContain(`${one} is told to run on right and on left.`)
  })

  test('of which only the later reel is told: what came before is not counted, and said so', async () => {
    const { ids, asked } = await changed()
    const { notes, reels } = valueOf(await asked([{ reel: ids[0], after_layer: 2 }]))
    expect(notes.join(' ')).toContain('What T0 up to layer 2 of small.gcode takes on left')
    const { running } = reels.find(({ reel }) => reel === ids[0])!
    expect(running).toMatchObject([
      { after_layer: 2, needed_g: { value: expect.closeTo(180, -1) } },
    ])
  })

  test('may have asked too much of the one that came off: it is to be weighed, not to be watched', async () => {
    const { handed, ids, asked } = await changed()
    const [one, two] = ids
    valueOf(
      await recordDraw(handed, { length_mm: 300_000, reels: [{ reel: one }], printer: 'right' }),
    )
    const { notes } = valueOf(await asked([{ reel: one }, { reel: two, after_layer: 2 }]))
    expect(notes.join(' ')).toMatch(
      new RegExp(
        `small.gcode, which runs on left, took 3\\d\\d g of ${one} up to layer 2; it is believed to have held 1\\d\\d g\\. Nothing more is planned from it; weigh it\\.`,
      ),
    )
    const after = valueOf(await asked([{ reel: two }, { reel: one, after_layer: 1 }]))
    expect(after.notes.join(' ')).toMatch(
      new RegExp(
        `takes 3\\d\\d g from layer 2 on, and ${one} holds 1\\d\\d g: it lasts with .* only`,
      ),
    )
  })

  test('from one that ran dry nothing is planned', async () => {
    const { ids, asked } = await changed()
    const [one, two] = ids
    const reels = [
      { reel: one, ran_dry: true },
      { reel: two, after_layer: 1 },
    ]
    const plan = valueOf(await asked(reels))
    expect(plan.reels.map(({ reel }) => reel)).not.toContain(one)
    expect(plan.notes).toContain(`Reel ${one} is left out: it ran dry on left.`)
    const locked = await asked(reels, { locks: [{ waiting: 'other', reel: one }] })
    expect(codeOf(locked)).toBe('lock_does_not_fit')
    // What feeds the rest is not known: that is said.
    const alone = valueOf(await asked([{ reel: one, ran_dry: true }]))
    expect(alone.notes.join(' ')).toContain(
      `What T0 after ${one} ran dry of small.gcode takes on left is not counted`,
    )
  })

  test('is refused where it can not have been so', async () => {
    const { ids, asked } = await changed()
    const [one, two, three] = ids
    const twice = await asked([{ reel: one }, { reel: two }])
    expect(codeOf(twice)).toBe('running_tool_twice')
    const same = await asked([
      { reel: one },
      { reel: two, after_layer: 1 },
      { reel: three, after_layer: 1 },
    ])
    expect(same).toMatchObject({
      refusal: { message: expect.stringContaining('both told to feed T0 after layer 1') },
    })
    const beyond = await asked([{ reel: one }, { reel: two, after_layer: 3 }])
    expect(codeOf(beyond)).toBe('beyond_print')
    const falling = [
      { reel: one },
      { reel: two, after_layer: 2 },
      { reel: three, after_layer: 1 },
    ] as const
    expect(codeOf(await asked(falling))).toBe('change_out_of_order')
    const itself = [{ reel: one }, { reel: two, after_layer: 1 }, { reel: two, after_layer: 2 }]
    expect(codeOf(await asked(itself))).toBe('change_to_itself')
  })

  test('has a reel on one tool at a time, which may go from one to the other', async () => {
    const { ids, asked } = await changed([0, 1])
    const [one, two, three] = ids
    const begin = [
      { tool: 0, reel: one },
      { tool: 1, reel: two },
    ]
    const both = await asked([...begin, { tool: 1, reel: one, after_layer: 1 }])
    expect(codeOf(both)).toBe('reel_twice')
    const moved = valueOf(
      await asked([
        ...begin,
        { tool: 1, reel: one, after_layer: 1 },
        { tool: 0, reel: three, after_layer: 1 },
      ]),
    )
    expect(moved.reels.find(({ reel }) => reel === one)!.running).toMatchObject([
      { tool: 0, after_layer: 0, until_layer: 1 },
      { tool: 1, after_layer: 1, until_layer: null },
    ])
  })
})

test('a reel is on the printer that drew from it last, and on no other', async () => {
  const { handed, ids } = await ready(1)
  const [reel] = ids as [string]
  valueOf(await addRow(handed, 'printer', { name: 'right' }))
  for (const printer of ['left', 'right']) {
    // oxlint-disable-next-line no-await-in-loop -- one after another
    valueOf(await recordDraw(handed, { length_mm: 1000, reels: [{ reel }], printer }))
  }
  valueOf(await addWaiting(handed, { print: smallPrint() }, { printers: ['right'], duration_h: 1 }))
  const until = new Date(handed.now() + 6 * 3_600_000).toISOString()
  const { copies } = await match(handed, { busy: [{ printer: 'left', until }] })
  expect(copies[0]).toMatchObject({ waits_for: null, ends_h: 1 })
})
