import { gzipSync } from 'node:zlib'
// What is asked depends on what was answered before.
/* oxlint-disable no-await-in-loop */
import { expect, test, vi } from 'vitest'
import { z } from 'zod'
import { harbourLedger } from '../../demo/ledger/harbour.ts'
import {
  changeJson,
  checkJson,
  type FactJson,
  idLength,
  importJson,
  makeId,
  printsJson,
  priorsJson,
  problemJson,
  type ReelListJson,
  recordedJson,
  reelLifeJson,
  reelListJson,
  reelShowJson,
  rowsJson,
  shelfCheckJson,
} from '../../src/contract/index.ts'
import { openApi } from '../../src/http/index.ts'
import { smallPrint, valueOf } from '../shelf-bench.ts'
import { type Served, served } from './served.ts'

const read = async <T>(
  answer: Response,
  schema: z.ZodType<T>,
  status: number | readonly number[] = 200,
): Promise<T> => {
  const text = await answer.text()
  if (![status].flat().includes(answer.status)) throw new Error(`${answer.status}: ${text}`)
  return schema.parse(JSON.parse(text))
}

let state = 7
const newFact = (): string =>
  makeId(idLength.fact, () => {
    state = (state * 48_271) % 2_147_483_647
    return Math.floor(state / 8_388_608) % 256
  })

const byText = (a: string, b: string): number => (a < b ? -1 : Number(a > b))

const fullest = async ({ ask }: Served) => {
  const { reels } = await read<ReelListJson>(await ask('GET', '/api/reels'), reelListJson)
  const known = reels.filter(({ net_g, reel }) => net_g !== null && reel.diameter_mm === 1.75)
  return known.reduce((most, each) => (each.net_g!.value > most.net_g!.value ? each : most))
}

test('what is left of a reel costs its part of the price', async () => {
  const { ask } = await served()
  const { reels } = await read(await ask('GET', '/api/reels'), reelListJson)
  let priced = 0
  for (const { reel } of reels) {
    const path = `/api/reels/${reel.id}`
    const { cost, net_g, facts } = await read(await ask('GET', path), reelShowJson)
    if (cost === null || net_g === null) continue
    priced++
    const price = Number(cost.paid.amount)
    expect(cost.gone.value + cost.left.value).toBeCloseTo(price, 9)
    const { marks } = await read(await ask('GET', `${path}/life`), reelLifeJson)
    expect(cost.left.value / price).toBeCloseTo(net_g.value / marks[0]!.net_g.value, 9)
    // What does not hold costs nothing.
    const drew = facts.findLast(({ kind, voided }) => kind === 'drew' && voided === null)
    if (drew === undefined) continue
    // A weighing after it may say that it was made.
    const wrong = { fact: drew.id, reason: 'never made', accept: true }
    await read(await ask('POST', '/api/put-rights', wrong), recordedJson, 201)
    const after = await read(await ask('GET', path), reelShowJson)
    const weighedSince = facts.some(({ kind, at }) => kind === 'weighed' && at > drew.at)
    if (!weighedSince) expect(after.cost!.gone.value).toBeLessThan(cost.gone.value)
  }
  expect(priced).toBeGreaterThan(0)
})

test('a reel takes over after a layer: only the rest is asked of it', async () => {
  const server = await served()
  const { ask } = server
  const { reel } = await fullest(server)
  const print = smallPrint()
  await read(await ask('PUT', `/api/prints/${print.id}`, print), printsJson)
  const of = async (more: object) =>
    read(
      await ask('POST', '/api/checks/reels', {
        print: print.id,
        reels: [{ reel: reel.id }],
        ...more,
      }),
      checkJson,
    )
  const ends = print.families[0]!.tools[0]!.layer_end_mm
  const whole = await of({})
  const rest = await of({ after_layer: 1 })
  expect(rest.needed_mm.value).toBeCloseTo(whole.needed_mm.value - ends[0]!, 6)
  const last = await ask('POST', '/api/checks/shelf', {
    print: print.id,
    after_layer: print.layers.count + 1,
  })
  expect((await read(last, problemJson, 422)).code).toBe('layer_out_of_range')
  const bare = await ask('POST', '/api/checks/shelf', { length_mm: 500, after_layer: 1 })
  expect((await read(bare, problemJson, 422)).code).toBe('part_needs_print')
})

test('the shelf, a reel and its life', async () => {
  const server = await served()
  const { ask } = server
  const { reel, net_g } = await fullest(server)
  const shown = await read(await ask('GET', `/api/reels/${reel.id.toLowerCase()}`), reelShowJson)
  expect(shown.reel.id).toBe(reel.id)
  expect(shown.net_g?.value).toBeCloseTo(net_g!.value, 6)
  const { reels } = await read(await ask('GET', '/api/reels?all=true'), reelListJson)
  for (const { reel: one, net_g: net } of reels) {
    const life = await read(await ask('GET', `/api/reels/${one.id}/life`), reelLifeJson)
    expect(life.line.length).toBeGreaterThan(0)
    expect(life.line.map(({ at }) => at)).toEqual(life.line.map(({ at }) => at).toSorted(byText))
    if (net !== null) expect(life.line.at(-1)!.net_g.value).toBeCloseTo(net.value, 6)
  }
  const none = await read(await ask('GET', '/api/reels/22222'), problemJson, 404)
  expect(none.status).toBe(404)
  const moment = await read(await ask('GET', `/api/reels/${reel.id}?at=today`), problemJson, 422)
  expect(moment.code).toBe('moment_malformed')
})

test('a draw steps down along a life', async () => {
  const server = await served()
  const { ask } = server
  const { reel } = await fullest(server)
  const printers = await read(await ask('GET', '/api/rows/printer'), rowsJson)
  const body = { reels: [{ reel: reel.id }], length_mm: 10_000, printer: printers.rows[0]!.id }
  await read(await ask('POST', '/api/draws', body), recordedJson, 201)
  const { line } = await read(await ask('GET', `/api/reels/${reel.id}/life`), reelLifeJson)
  const [before, after] = line.slice(-2)
  expect(before!.at).toBe(after!.at)
  expect(before!.net_g.value - after!.net_g.value).toBeGreaterThan(25)
})

test('the same question is answered the same until something is written', async () => {
  const server = await served()
  const { ask } = server
  const question = { length_mm: 30_000, all: true }
  const answer = async () => read(await ask('POST', '/api/checks/shelf', question), shelfCheckJson)
  const first = await answer()
  expect(await answer()).toEqual(first)
  const { reel } = first.tools[0]!.reels.at(-1)!
  await read(
    await ask('POST', '/api/events', { reel: reel.id, event: { kind: 'retired' } }),
    recordedJson,
    201,
  )
  const then = await answer()
  expect(then.tools[0]!.reels.map((one) => one.reel.id)).not.toContain(reel.id)
  const few = { ...question, most: 2 }
  const cut = await read(await ask('POST', '/api/checks/shelf', few), shelfCheckJson)
  expect(cut.tools[0]).toMatchObject({ ...then.tools[0], reels: then.tools[0]!.reels.slice(0, 2) })
})

test('over the shelf, the materials to take are told whatever material is asked for', async () => {
  const { ask } = await served()
  const check = async (more: object) =>
    read(
      await ask('POST', '/api/checks/shelf', { length_mm: 1000, all: true, ...more }),
      shelfCheckJson,
    )
  const all = await check({})
  const counts = new Map<string | null, number>()
  for (const { reel } of all.tools[0]!.reels) {
    counts.set(reel.material, (counts.get(reel.material) ?? 0) + 1)
  }
  expect(counts.size).toBeGreaterThan(1)
  expect(new Map(all.materials.map(({ id, reels }) => [id, reels]))).toEqual(counts)
  const [{ id, name, reels } = { id: null, name: null, reels: 0 }] = all.materials
  expect(reels).toBe(Math.max(...counts.values()))
  const one = await check({ material: id })
  expect(one.materials).toEqual(all.materials)
  expect(one.tools[0]!.reels.map(({ reel }) => reel.material)).toEqual(Array(reels).fill(id))
  expect((await check({ material: name })).tools).toEqual(one.tools)
  // Cut to so many after the others were left out, not before.
  const rarest = all.materials.at(-1)!
  const cut = await check({ material: rarest.id, most: 1 })
  expect(cut.tools[0]!.reels.map(({ reel }) => reel.material)).toEqual([rarest.id])
})

test('a print is kept, and checked over the shelf, with one reel, and weighed now', async () => {
  const server = await served()
  const { ask } = server
  const print = smallPrint()
  const path = `/api/prints/${print.id}`
  await read(await ask('PUT', path, print), printsJson)
  const { prints } = await read(await ask('GET', '/api/prints'), printsJson)
  expect(prints[0]).toMatchObject({ id: print.id })
  const other = await ask('PUT', `/api/prints/${'cd'.repeat(32)}`, print)
  expect((await read(other, problemJson, 422)).code).toBe('print_differs')
  const shelf = await read(
    await ask('POST', '/api/checks/shelf', { print: print.id, all: true }),
    shelfCheckJson,
  )
  expect(shelf.verdict).toBe('enough')
  // The one that stands in is the one that takes most, and is reckoned with as if it were named.
  const { printer, tools: unnamed } = shelf
  const named = await read(
    await ask('POST', '/api/checks/shelf', { print: print.id, all: true, printer: printer!.id }),
    shelfCheckJson,
  )
  expect([printer!.stands_in, named.printer!.stands_in]).toEqual([true, false])
  expect(named.tools).toEqual(unnamed)
  expect(shelf.print).toMatchObject({ file: 'small.gcode', lines: null, layers: 3, top_mm: 0.6 })
  const { reel } = await fullest(server)
  const asked = { print: print.id, reels: [{ reel: reel.id }] }
  const one = await read(await ask('POST', '/api/checks/reels', asked), checkJson)
  const ranked = shelf.tools[0]!.reels.find((each) => each.reel.id === reel.id)
  expect(one.chance).toBeCloseTo(ranked!.chance, 6)
  const cut = await ask('POST', '/api/checks/reels', { ...asked, cut_short: true })
  const inDoubt = await read(cut, checkJson)
  expect(inDoubt.verdict).toBe('close')
  expect(inDoubt.tools.map((tool) => tool.verdict)).toEqual(['close'])
  const shelfInDoubt = await read(
    await ask('POST', '/api/checks/shelf', { print: print.id, all: true, cut_short: true }),
    shelfCheckJson,
  )
  const [before, then] = [shelf.tools[0]!, shelfInDoubt.tools[0]!]
  expect(shelfInDoubt.verdict).toBe('close')
  expect(then).toMatchObject({
    enough: 0,
    close: before.enough + before.close,
    short: before.short,
  })
  expect(then.reels.map((each) => each.verdict)).not.toContain('enough')
  expect(then.reels.map((each) => each.next).filter((next) => next !== null)).toEqual([])
  const facts = (await server.store.facts()).length
  const weighing = { reading_g: one.tare_g.value + 20, scale: 'kitchen scale' }
  const now = await ask('POST', '/api/checks/reels', {
    length_mm: 60_000,
    reels: [{ reel: reel.id, weighing }],
  })
  expect((await read(now, checkJson)).net_g.value).toBeLessThan(one.net_g.value)
  expect(await server.store.facts()).toHaveLength(facts)
  const unknown = await ask('POST', '/api/checks/shelf', { print: 'ef'.repeat(32) })
  expect((await read(unknown, problemJson, 422)).code).toBe('print_unknown')
})

test('a weighing that is only supposed is as coarse as it is told, on whatever scale', async () => {
  const server = await served()
  const { ask } = server
  const { reel, net_g } = await fullest(server)
  const { rows } = await read(await ask('GET', '/api/rows/scale'), rowsJson)
  expect(rows.length).toBeGreaterThan(1)
  const holds = async (weighing: object): Promise<number> => {
    const asked = { length_mm: 60_000, reels: [{ reel: reel.id, weighing }] }
    return (await read(await ask('POST', '/api/checks/reels', asked), checkJson)).net_g.u
  }
  const reading_g = Math.round((net_g?.value ?? 0) + 200)
  for (const scale of [{}, { scale: 'kitchen scale' }]) {
    const fine = await holds({ reading_g, ...scale })
    const coarse = await holds({ reading_g, last_place_g: 100, ...scale })
    expect(coarse).toBeGreaterThan(fine)
    // As coarse as one whose doubt is stated outright: a hundred grams in steps, and the scale's own.
    expect(coarse).toBeCloseTo(await holds({ reading_g, u_g: 100 / Math.sqrt(12), ...scale }), 0)
  }
})

test('a carrier, calipers and a cut length can be supposed: the answer is that of writing them down', async () => {
  const server = await served()
  const { ask } = server
  const scale = 'kitchen scale'
  const make = { name: 'Kittiwake PLA', maker: 'Kittiwake', material: 'PLA' }
  const arrive = { make, label_net_g: 1000, part_used: true, gross: { reading_g: 612, scale } }
  const added = await read(await ask('POST', '/api/reels', arrive), recordedJson, 201)
  const { reel } = added.reels[0]!
  const asked = (supposed: object): Promise<Response> =>
    ask('POST', '/api/checks/reels', { length_mm: 120_000, reels: [{ reel, ...supposed }] })
  const answer = async (supposed: object = {}) => read(await asked(supposed), checkJson)
  const before = await answer()
  const facts = (await server.store.facts()).length
  const idsOf = ({ next }: typeof before): readonly string[] => next.map(({ id }) => id)
  expect(idsOf(before)).toContain('weigh_empty_carrier')

  const empty_carrier = { reading_g: Math.round(before.tare_g.value), scale }
  const withCarrier = await answer({ empty_carrier })
  expect(withCarrier.tare_g.u).toBeLessThan(before.tare_g.u / 2)
  const places_mm = [
    [1.74, 1.75],
    [1.75, 1.75],
    [1.74, 1.74],
  ]
  const withCalipers = await answer({ calipers: { places_mm } })
  expect(withCalipers.used.map(({ id }) => id)).toContain('calipers')
  const { value, u } = before.linear_density_g_per_m
  const weighing = { reading_g: Number((10 * value).toFixed(1)), u_g: 0.1, scale }
  const cut = { length_mm: { value: 10_000, u: 5 }, weighing }
  const withCut = await answer({ cut })
  expect(withCut.linear_density_g_per_m.u).toBeLessThan(u)
  // The piece is off the reel.
  expect(before.net_g.value - withCut.net_g.value).toBeCloseTo(weighing.reading_g, -1)
  const all = await answer({ empty_carrier, calipers: { places_mm }, cut })
  expect(all.margin_g.u).toBeLessThan(withCarrier.margin_g.u)
  const tooWide = await asked({ calipers: { places_mm: [[17.5, 17.5]] } })
  expect((await read(tooWide, problemJson, 422)).code).toBe('impossible_fact')
  // On no scale in particular, and of a bench that has several.
  const { scale: _, ...bare } = empty_carrier
  expect((await answer({ empty_carrier: bare })).tare_g.u).toBeLessThan(before.tare_g.u / 2)
  expect(await server.store.facts()).toHaveLength(facts)
  expect(await answer()).toEqual(before)

  const carrier = { reel, empty: true, another: true, weighing: empty_carrier, accept: true }
  const { facts: written } = await read(
    await ask('POST', '/api/weighings', carrier),
    recordedJson,
    201,
  )
  expect(written).toMatchObject([{ kind: 'carrier-weighed' }])
  expect(written[0]).not.toHaveProperty('reel')
  const after = await answer()
  expect(after.tare_g.value).toBeCloseTo(withCarrier.tare_g.value, 0)
  // How far carriers differ is learnt anew once it is written down.
  expect(after.tare_g.u).toBeCloseTo(withCarrier.tare_g.u, 0)
  expect(after.chance).toBeCloseTo(withCarrier.chance, 1)
  expect(idsOf(after)).toEqual(idsOf(withCarrier))
})

test('a print kept anew, as read by another reader or under another name, is answered anew', async () => {
  const server = await served()
  const { ask } = server
  const print = smallPrint()
  const path = `/api/prints/${print.id}`
  await read(await ask('PUT', path, print), printsJson)
  const question = { print: print.id, all: true }
  const answer = async () => read(await ask('POST', '/api/checks/shelf', question), shelfCheckJson)
  expect((await answer()).print).toMatchObject({ file: 'small.gcode' })
  const { reel } = await fullest(server)
  const { rows } = await read(await ask('GET', '/api/rows/printer'), rowsJson)
  const drawn = { reels: [{ reel: reel.id }], print: print.id, printer: rows[0]!.id }
  await read(await ask('POST', '/api/draws', drawn), recordedJson, 201)
  const shown = `/api/reels/${reel.id}`
  const first = await ask('GET', shown)
  const etag = first.headers.get('etag') ?? 'none'
  expect(await first.text()).toContain('small.gcode')
  await answer()
  const revision = await server.store.revision()
  const renamed = { ...print, file: 'mooring-hook.gcode', changed_at: '2099-01-01T00:00:00.000Z' }
  await read(await ask('PUT', path, renamed), printsJson)
  expect(await server.store.revision()).toBe(revision)
  expect((await answer()).print).toMatchObject({ file: 'mooring-hook.gcode' })
  const then = await ask('GET', shown, undefined, { 'if-none-match': etag })
  expect(await then.text()).toContain('mooring-hook.gcode')
})

const expectedGross = async ({ ask }: Served, reel: string): Promise<number> => {
  const body = { reel, weighing: { reading_g: 1, scale: 'kitchen scale' }, test: true }
  const { surprise } = await read(await ask('POST', '/api/weighings', body), recordedJson)
  return Math.round(surprise!.expected_g.value)
}

test('a weighing is tested first, then accepted; with the same id it counts once', async () => {
  const server = await served()
  const { ask, store } = server
  const { reel } = await fullest(server)
  const count = async (): Promise<number> => (await store.facts()).length
  const before = await count()
  const reading_g = await expectedGross(server, reel.id)
  expect(await count()).toBe(before)
  const id = newFact()
  const body = { id, reel: reel.id, weighing: { reading_g, scale: 'kitchen scale' } }
  const first = await read(await ask('POST', '/api/weighings', body), recordedJson, 201)
  expect(first).toMatchObject({ recorded: true, facts: [{ id }] })
  const again = await read(await ask('POST', '/api/weighings', body), recordedJson, 200)
  expect(again).toMatchObject({ recorded: true, facts: first.facts })
  expect(await count()).toBe(before + 1)
  const other = { ...body, weighing: { ...body.weighing, reading_g: reading_g + 1 } }
  const taken = await read(await ask('POST', '/api/weighings', other), problemJson, 409)
  expect(taken.code).toBe('id_taken')
  const odd = { reel: reel.id, weighing: { reading_g: reading_g + 150, scale: 'kitchen scale' } }
  const surprising = await read(await ask('POST', '/api/weighings', odd), recordedJson, 200)
  expect(surprising).toMatchObject({ recorded: false, surprise: { surprising: true } })
  expect(await count()).toBe(before + 1)
  const accepted = await ask('POST', '/api/weighings', { ...odd, accept: true })
  expect((await read(accepted, recordedJson, 201)).recorded).toBe(true)
})

test('the same id of another make is another fact', async () => {
  const { ask, store } = await served({ isEmpty: true })
  for (const name of ['Kittiwake PLA', 'Fulmar PLA']) {
    const make = { name, maker: 'Skerry', material: 'PLA' }
    await read(await ask('POST', '/api/reels', { make, label_net_g: 1000 }), recordedJson, 201)
  }
  const posts = [
    ['/api/data-sheets', { source: 'leaflet', density_g_per_cm3: { value: 1.24, u: 0.01 } }],
    ['/api/weighings', { empty: true, weighing: { reading_g: 180 }, accept: true }],
  ] as const
  for (const [path, body] of posts) {
    const told = { id: newFact(), make: 'Skerry Kittiwake PLA', ...body }
    await read(await ask('POST', path, told), recordedJson, 201)
    const count = (await store.facts()).length
    // By its name alone it is the same make.
    const again = { ...told, make: 'kittiwake pla' }
    await read(await ask('POST', path, again), recordedJson, 200)
    const taken = await ask('POST', path, { ...told, make: 'Skerry Fulmar PLA' })
    expect((await read(taken, problemJson, 409)).code).toBe('id_taken')
    expect(await store.facts()).toHaveLength(count)
  }
})

test('what is written while the shelf is read makes no shelf of two moments', async () => {
  const { ask, store } = await served({ isEmpty: true })
  const catalogue = store.catalogue.bind(store)
  vi.spyOn(store, 'catalogue').mockImplementationOnce(async () => {
    const rows = await catalogue()
    valueOf(await store.append(harbourLedger()))
    return rows
  })
  const { reels } = await read<ReelListJson>(await ask('GET', '/api/reels'), reelListJson)
  const then = await read<ReelListJson>(await ask('GET', '/api/reels'), reelListJson)
  expect(reels.length).toBeGreaterThan(5)
  expect(reels).toEqual(then.reels)
})

test('two clients at once: the same id counts once, and each of two writes holds', async () => {
  const server = await served()
  const { ask, store } = server
  const { reel } = await fullest(server)
  const reading_g = await expectedGross(server, reel.id)
  const before = (await store.facts()).length
  const weighing = { reading_g, scale: 'kitchen scale' }
  const body = { id: newFact(), reel: reel.id, weighing }
  const answers = await Promise.all(
    [body, body, body, { ...body, id: newFact() }].map((each) =>
      ask('POST', '/api/weighings', each),
    ),
  )
  expect(answers.map(({ status }) => status).toSorted((a, b) => a - b)).toEqual([
    200, 200, 201, 201,
  ])
  expect(await store.facts()).toHaveLength(before + 2)
})

test('reels arrive, are measured, moved, printed from, put right, and retired', async () => {
  const { ask, store } = await served({ isEmpty: true })
  const make = { name: 'Kittiwake PLA', maker: 'Kittiwake', material: 'PLA' }
  const id = newFact()
  const arrive = { id, make, label_net_g: 1000, count: 2, gross: undefined }
  const added = await read(await ask('POST', '/api/reels', arrive), recordedJson, 201)
  expect(added.reels).toHaveLength(2)
  await read(await ask('POST', '/api/reels', arrive), recordedJson, 200)
  expect(await store.facts()).toHaveLength(2)
  const reel = added.reels[0]!.reel
  const post = async (path: string, body: object): Promise<FactJson> => {
    const withId = { id: newFact(), ...body }
    const told = await read(await ask('POST', path, withId), recordedJson, 201)
    const count = (await store.facts()).length
    await read(await ask('POST', path, withId), recordedJson, 200)
    expect(await store.facts()).toHaveLength(count)
    return told.facts[0]!
  }
  await read(await ask('POST', '/api/rows/printer', { name: 'left' }), recordedJson, 201)
  const cut = {
    length_mm: { value: 1000, u: 1 },
    weighing: { reading_g: 3, last_place_g: 0.01 },
  }
  await post('/api/measurements', { reel, cut })
  await post('/api/events', { reel, event: { kind: 'moved', place: 'dry box' } })
  const drew = await post('/api/draws', {
    reels: [{ reel }],
    length_mm: 5000,
    note: '<img src=x onerror=alert(1)>',
  })
  await post('/api/data-sheets', {
    make: 'Kittiwake PLA',
    source: 'leaflet',
    density_g_per_cm3: { value: 1.24, u: 0.01 },
  })
  await post('/api/put-rights', { fact: drew.id, reason: 'it was the other reel' })
  const isVoid = await ask('POST', '/api/put-rights', { fact: drew.id, reason: 'again' })
  expect((await read(isVoid, problemJson, 409)).code).toBe('fact_void')
  await post('/api/events', { reel, event: { kind: 'retired' } })
  const { facts } = await read(await ask('GET', `/api/reels/${reel}`), reelShowJson)
  expect(facts.some(({ what }) => what.includes('<img src=x onerror=alert(1)>'))).toBe(true)
})

test('rows and priors', async () => {
  const { ask } = await served()
  for (const kind of ['make', 'printer', 'scale', 'person', 'material']) {
    await read(await ask('GET', `/api/rows/${kind}`), rowsJson)
  }
  const hostile = { name: '<img src=x onerror=alert(1)>' }
  const added = await read(await ask('POST', '/api/rows/person', hostile), recordedJson, 201)
  const { id } = added.rows[0]!
  const changed = await ask('PATCH', `/api/rows/person/${id}`, { note: 'harmless' })
  expect((await read(changed, recordedJson)).rows).toMatchObject([{ ...hostile, id }])
  const twice = await ask('POST', '/api/rows/person', hostile)
  expect((await read(twice, problemJson, 409)).code).toBe('name_taken')
  const forged = await ask('POST', '/api/rows/person', { name: 'A', id: 'K7RM4' })
  expect((await read(forged, problemJson, 422)).code).toBe('request_invalid')
  const wrong = await ask('POST', '/api/rows/scale', { name: 'odd', step_g: 'one' })
  expect((await read(wrong, problemJson, 422)).code).toBe('request_invalid')
  expect((await read(await ask('GET', '/api/rows/rocket'), problemJson, 404)).code).toBe(
    'kind_unknown',
  )
  const { priors } = await read(await ask('GET', '/api/priors'), priorsJson)
  const { key, usual } = priors[0]!
  const own = { value: usual.value, u: usual.u * 2 }
  await read(await ask('PUT', `/api/priors/${key}`, { own }), recordedJson)
  const after = await read(await ask('GET', '/api/priors'), priorsJson)
  expect(after.priors[0]).toMatchObject({ own })
  await read(await ask('PUT', `/api/priors/${key}`, { own: null }), recordedJson)
})

test('what is exported can be imported, and counts once', async () => {
  const { ask, store } = await served()
  const lines = await (await ask('GET', '/api/export')).text()
  const type = { 'content-type': 'application/x-ndjson' }
  const same = await read(await ask('POST', '/api/import', lines, type), importJson)
  expect(same).toMatchObject({ written: 0, dry_run: false })
  const empty = await served({ isEmpty: true })
  const tried = await empty.ask('POST', '/api/import?dry_run=true', lines, type)
  expect((await read(tried, importJson)).dry_run).toBe(true)
  expect(await empty.store.facts()).toEqual([])
  await read(await empty.ask('POST', '/api/import', lines, type), importJson)
  expect(await empty.store.facts()).toEqual(await store.facts())
  // A bad line is told of, and left out only where that is asked.
  const third = await served({ isEmpty: true })
  const torn = lines.replace(/\n(.*"kind":"weighed")/, '\n{"kind":"weighed"}\n$1')
  expect(torn).not.toBe(lines)
  await read(await third.ask('POST', '/api/import', torn, type), problemJson, 422)
  expect(await third.store.facts()).toEqual([])
  const left = await third.ask('POST', '/api/import?skip_bad=true', torn, type)
  expect((await read(left, importJson)).skipped).toMatchObject([{ code: 'ledger_record' }])
  expect(await third.store.facts()).toEqual(await store.facts())
  const bad = await read(await ask('POST', '/api/import', 'no ledger', type), problemJson, 422)
  expect(bad).toMatchObject({ code: 'ledger_no_json', line: 1 })
})

test('lines are taken over out of gzip, by its first bytes', async () => {
  const { ask, store } = await served()
  const lines = Buffer.from(await (await ask('GET', '/api/export')).arrayBuffer())
  const type = { 'content-type': 'application/x-ndjson' }
  for (const headers of [type, { ...type, 'content-encoding': 'gzip' }]) {
    // oxlint-disable-next-line no-await-in-loop -- one server after another
    const empty = await served({ isEmpty: true })
    // oxlint-disable-next-line no-await-in-loop -- one server after another
    await read(await empty.ask('POST', '/api/import', gzipSync(lines), headers), importJson)
    // oxlint-disable-next-line no-await-in-loop -- one server after another
    expect(await empty.store.facts()).toEqual(await store.facts())
  }
  const refused = async (bytes: Uint8Array, status: number): Promise<string> =>
    (await read(await ask('POST', '/api/import', bytes, type), problemJson, status)).code
  const bomb = gzipSync(Buffer.alloc(64 * 2 ** 20 + 1, '\n'))
  expect(bomb.length).toBeLessThan(2 ** 17)
  expect(await refused(bomb, 413)).toBe('too_large')
  expect(await refused(gzipSync(lines).subarray(0, -9), 422)).toBe('gzip_damaged')
  expect(await refused(Buffer.from('{"name":"Möwe"}', 'latin1'), 422)).toBe('not_utf8')
})

test('what makes no sense is told as problem details', async () => {
  const { ask } = await served()
  const post = (body: string, headers = {}): Promise<Response> =>
    ask('POST', '/api/weighings', body, headers)
  expect((await read(await post('{'), problemJson, 400)).code).toBe('body_no_json')
  expect((await read(await post('{}'), problemJson, 422)).code).toBe('request_invalid')
  const text = await post('{}', { 'content-type': 'text/plain' })
  expect((await read(text, problemJson, 415)).code).toBe('body_type')
  const large = await post(' '.repeat(2 ** 20 + 1))
  expect((await read(large, problemJson, 413)).code).toBe('too_large')
  const told = await post('{}', { 'content-length': `${2 ** 20 + 1}` })
  expect((await read(told, problemJson, 413)).code).toBe('too_large')
  expect((await read(await ask('GET', '/api/nothing'), problemJson, 404)).code).toBe('not_found')
  const answer = await ask('GET', '/api/reels/22222')
  expect(answer.headers.get('content-type')).toBe('application/problem+json')
})

test('the OpenAPI document has every route, and names nothing that is not there', async () => {
  const { ask } = await served()
  const document = openApi()
  expect(await (await ask('GET', '/api/openapi.json')).json()).toEqual(
    JSON.parse(JSON.stringify(document)),
  )
  const text = JSON.stringify(document)
  const names = [...text.matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)].map(([, n]) => n!)
  expect(names.length).toBeGreaterThan(20)
  expect(names.filter((name) => !(name in document.components.schemas))).toEqual([])
  expect(text).not.toContain('#/$defs/')
  const ids = Object.values(document.paths).flatMap((each) =>
    Object.values(each).map(({ operationId }) => operationId),
  )
  expect(new Set(ids).size).toBe(ids.length)
  const page = await (await ask('GET', '/api')).text()
  for (const path of Object.keys(document.paths)) expect(page).toContain(` ${path}</h3>`)
  expect(page).not.toMatch(/<script|style=|<style/)
})

test('health and readiness', async () => {
  const { ask, store } = await served()
  expect((await ask('GET', '/healthz')).status).toBe(200)
  expect((await ask('GET', '/readyz')).status).toBe(200)
  await store.close()
  expect((await ask('GET', '/healthz')).status).toBe(200)
  expect((await ask('GET', '/readyz')).status).toBe(503)
})

test('a change is told to who listens', async () => {
  const server = await served()
  const { ask, app } = server
  const answer = await ask('GET', '/api/changes')
  expect(answer.headers.get('content-type')).toContain('text/event-stream')
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader()
  const next = async () => {
    const { value = '' } = await reader.read()
    return changeJson.parse(JSON.parse(/^data: (.*)$/m.exec(value)?.[1] ?? 'null'))
  }
  const first = await next()
  await read(await ask('POST', '/api/rows/person', { name: 'Mags' }), recordedJson, 201)
  expect((await next()).revision).toBeGreaterThan(first.revision)
  await app.end()
  expect((await reader.read()).done).toBe(true)
})
