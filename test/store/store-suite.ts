// oxlint-disable no-await-in-loop -- one step after another is what is tested
import * as fc from 'fast-check'
import { afterEach, describe, expect, it } from 'vitest'
import type { FactJson, LedgerRecord } from '../../src/contract/index.ts'
import type { Store } from '../../src/store/index.ts'
import type { Outcome } from '../../src/units/index.ts'
import { randomFact, randomPrint, randomRow } from './random-record.ts'
import {
  catalogue,
  factOfEveryKind,
  known,
  minute,
  newFactId,
  newRowId,
  opening,
  otherMake,
  otherReel,
  printHash,
  printRow,
  reel,
  scale,
  scaleRow,
  weighing,
} from './records.ts'

/** A database to run the suite on. */
export interface Base {
  readonly name: string
  /** An empty store, closed after the test. */
  fresh(): Promise<Store>
  /** Another connection to the same database, where there can be one. */
  again?(): Promise<Store>
  /** Runs SQL past the store, where one can. */
  meddle?(statement: string): Promise<void>
}

export const valueOf = <T>(outcome: Outcome<T>): T => {
  if (outcome.ok) return outcome.value
  throw new Error(`${outcome.refusal.code}: ${outcome.refusal.message}`)
}

export const codeOf = (outcome: Outcome<unknown>): string =>
  outcome.ok ? 'accepted' : outcome.refusal.code

export const gathered = async (records: AsyncIterable<LedgerRecord>): Promise<LedgerRecord[]> => {
  const all: LedgerRecord[] = []
  for await (const record of records) all.push(record)
  return all
}

const byId = (records: readonly LedgerRecord[]): LedgerRecord[] =>
  records.toSorted((one, other) => (one.id < other.id ? -1 : 1))

const sum = (written: number, same = 0, older = 0): object => ({ written, same, older })

/** What every store has to do, whatever database it is over. */
export const storeSuite = (base: Base): void => {
  describe(`the store over ${base.name}`, () => {
    const open: Store[] = []
    afterEach(async () => {
      for (const store of open.splice(0)) await store.close()
    })
    const begin = async (...records: readonly LedgerRecord[]): Promise<Store> => {
      const store = await base.fresh()
      open.push(store)
      if (records.length > 0) valueOf(await store.append(records))
      return store
    }

    it('is empty at first', async () => {
      const store = await begin()
      expect(await store.catalogue()).toEqual([])
      expect(await store.facts()).toEqual([])
      expect(await store.prints()).toEqual([])
      expect(await store.fact(newFactId())).toBeUndefined()
      expect(await store.print(printHash)).toBeUndefined()
      expect(await gathered(store.records())).toEqual([])
      expect(valueOf(await store.append([]))).toEqual(sum(0))
    })

    it('keeps a fact of every kind as it was given, in the order given', async () => {
      const facts = factOfEveryKind()
      const store = await begin(...known, ...facts)
      expect(await store.facts()).toEqual(facts)
      expect(await store.fact(facts[4]!.id)).toEqual(facts[4])
    })

    it('gives the facts of one reel', async () => {
      const [first, second] = [opening(), opening(otherReel, otherMake)]
      const [light, heavy] = [weighing(300), weighing(900, newFactId(), otherReel)]
      const store = await begin(...catalogue, first, second, heavy, light)
      expect(await store.facts({ reel })).toEqual([first, light])
      expect(await store.facts({ reel: otherReel })).toEqual([second, heavy])
      expect(await store.facts({ reel: newRowId() })).toEqual([])
    })

    it('keeps the order written down, not that of when it happened', async () => {
      const late = { ...weighing(500), at: minute(900) }
      const early = { ...weighing(700), at: minute(1) }
      const store = await begin(...catalogue, opening(), late)
      valueOf(await store.append([early]))
      expect((await store.facts()).slice(1)).toEqual([late, early])
    })

    it('writes only at the revision that is asked for', async () => {
      const store = await begin(...known, opening())
      const ifRevision = await store.revision()
      valueOf(await store.append([weighing(1)], { ifRevision }))
      expect(codeOf(await store.append([weighing(2)], { ifRevision }))).toBe('changed_meanwhile')
      expect(await store.facts()).toHaveLength(2)
      const next = await store.revision()
      expect(next).toBe(ifRevision + 1)
      valueOf(await store.append([weighing(3)], { ifRevision: next }))
    })

    it('takes the same records twice and writes them once', async () => {
      const facts = factOfEveryKind()
      const all = [...known, ...facts]
      const store = await begin()
      expect(valueOf(await store.append(all))).toEqual(sum(all.length))
      const revision = await store.revision()
      expect(valueOf(await store.append(all))).toEqual(sum(0, all.length))
      expect(await store.revision()).toBe(revision)
      expect(await store.facts()).toEqual(facts)
    })

    it('knows a fact again whose keys come in another order', async () => {
      const fact = weighing(512)
      const turned = Object.fromEntries(Object.entries(fact).toReversed()) as unknown as FactJson
      const store = await begin(...catalogue, opening(), fact)
      expect(valueOf(await store.append([turned]))).toEqual(sum(0, 1))
    })

    it('knows priors again whose keys come in another order', async () => {
      const [one, other] = [
        { value: 1, u: 0.1 },
        { value: 2, u: 0.2 },
      ]
      const row = { kind: 'priors', id: 'priors', changed_at: minute(1) } as const
      const store = await begin({ ...row, priors: { tail: one, feedFactor: other } })
      const turned = { ...row, priors: { feedFactor: other, tail: one } }
      expect(valueOf(await store.append([turned]))).toEqual(sum(0, 1))
    })

    it('takes a fact once that stands twice in one call', async () => {
      const fact = weighing(512)
      const store = await begin(...catalogue, opening())
      expect(valueOf(await store.append([fact, fact]))).toEqual(sum(1, 1))
    })

    it.each(['of before', 'of the same call'])('refuses the id of a fact %s', async (whose) => {
      const fact = weighing(512)
      const other = weighing(513, fact.id)
      const store = await begin(...catalogue, opening())
      const calls = whose === 'of before' ? [[fact], [weighing(1), other]] : [[fact, other]]
      let last: Outcome<unknown> | undefined
      for (const call of calls) last = await store.append(call)
      expect(last).toMatchObject({ refusal: { code: 'id_taken', received: fact.id } })
      expect(await store.facts()).toHaveLength(calls.length)
    })

    it('refuses the id of a row of another kind', async () => {
      const store = await begin(...catalogue)
      const thief = { kind: 'person', id: scale, changed_at: minute(9), name: 'Bo' } as const
      expect(codeOf(await store.append([thief]))).toBe('id_taken')
      const both = newRowId()
      const pair = [
        { ...thief, id: both },
        { ...scaleRow, id: both },
      ]
      expect(codeOf(await store.append(pair))).toBe('id_taken')
      expect(await store.catalogue()).toHaveLength(catalogue.length)
    })

    const strange = newRowId()
    const strangeFact = newFactId()
    const samples = factOfEveryKind()
    const ofKind = <K extends FactJson['kind']>(kind: K): FactJson & { kind: K } =>
      samples.find((fact) => fact.kind === kind) as FactJson & { kind: K }
    const leadingNowhere: readonly (readonly [string, string, FactJson])[] = [
      ['reel', 'reel of a weighing', { ...weighing(1), reel: strange }],
      ['reel', 'reel of a carrier', { ...ofKind('carrier-weighed'), reel: strange }],
      ['make', 'make of an opening', { ...opening(), make: strange }],
      ['make', 'make of a carrier', { ...ofKind('carrier-weighed'), make: strange }],
      ['make', 'make of a data sheet', { ...ofKind('data-sheet'), make: strange }],
      ['printer', 'printer', { ...ofKind('drew'), printer: strange }],
      ['print', 'print', { ...ofKind('drew'), print: 'b2'.repeat(32) }],
      ['person', 'person', { ...weighing(1), by: strange }],
      ['voids', 'fact put right', { ...ofKind('put-right'), voids: strangeFact }],
      ['instead', 'fact instead', { ...ofKind('put-right'), instead: strangeFact }],
      ...(
        [
          { ...opening(), gross_when_new: { scale: strange, reading_g: 1 } },
          { ...weighing(1), weighing: { scale: strange, reading_g: 1 } },
          { ...ofKind('carrier-weighed'), weighing: { scale: strange, reading_g: 1 } },
          {
            ...ofKind('measured'),
            cut: { length_mm: { value: 1, u: 0 }, weighing: { scale: strange, reading_g: 1 } },
          },
        ] satisfies FactJson[]
      ).map((fact) => ['scale', `scale of ${fact.kind}`, fact] as const),
    ]
    it.each(leadingNowhere)('refuses an unknown %s: %s', async (field, _, fact) => {
      const store = await begin(...known, opening(), samples[1]!, samples[2]!)
      const outcome = await store.append([weighing(7), { ...fact, id: newFactId() }])
      expect(outcome).toMatchObject({
        ok: false,
        refusal: { code: 'unknown_reference', expected: field },
      })
      expect(await store.facts()).toHaveLength(3)
    })

    it('refuses a row of another kind in the place of the one wanted', async () => {
      const store = await begin(...catalogue, opening())
      const drew = { ...ofKind('drew'), id: newFactId(), printer: scale }
      const { print: _, ...unprinted } = drew
      expect(await store.append([unprinted])).toMatchObject({
        refusal: { code: 'unknown_reference', received: scale },
      })
    })

    it('takes records that refer to others of the same call, in any order', async () => {
      const all = [...factOfEveryKind().toReversed(), ...known.toReversed()]
      const store = await begin()
      expect(valueOf(await store.append(all))).toEqual(sum(all.length))
    })

    it('writes 500 records or none', async () => {
      const store = await begin(...catalogue, opening())
      const many = Array.from({ length: 500 }, (_, place) => weighing(place + 1))
      const bad = many.with(250, { ...many[250]!, reel: newRowId() })
      const before = await store.revision()
      const rowToo = { ...scaleRow, changed_at: minute(99), name: 'new scale' }
      expect(codeOf(await store.append([rowToo, printRow(), ...bad]))).toBe('unknown_reference')
      expect(await store.facts()).toHaveLength(1)
      expect(await store.prints()).toEqual([])
      expect(byId(await store.catalogue())).toEqual(byId(catalogue))
      expect(await store.revision()).toBe(before)
      expect(valueOf(await store.append([rowToo, ...many]))).toEqual(sum(501))
      expect((await store.facts()).slice(1)).toEqual(many)
    })

    it('throws for a record that is none', async () => {
      const store = await begin(...catalogue, opening())
      await expect(store.append([{ ...weighing(1), id: 'nothing' }])).rejects.toThrow(/no id/)
    })

    it('of a row the one changed last holds, whatever comes first', async () => {
      const newer = { ...scaleRow, changed_at: minute(10), name: 'moved to the shed' }
      const newest = { ...scaleRow, changed_at: minute(11), name: 'back again' }
      const store = await begin(scaleRow)
      expect(valueOf(await store.append([newest]))).toEqual(sum(1))
      expect(valueOf(await store.append([newer]))).toEqual(sum(0, 0, 1))
      expect(valueOf(await store.append([newest]))).toEqual(sum(0, 1))
      expect(await store.catalogue()).toEqual([newest])
    })

    it('of a row twice in a call the later holds', async () => {
      const newer = { ...scaleRow, changed_at: minute(10), name: 'moved to the shed' }
      const store = await begin()
      expect(valueOf(await store.append([newer, scaleRow]))).toEqual(sum(1, 0, 1))
      expect(await store.catalogue()).toEqual([newer])
    })

    it('two rows of the same moment end the same, whatever comes first', async () => {
      const [one, other] = [scaleRow, { ...scaleRow, name: 'by another hand' }]
      const first = await begin(one)
      valueOf(await first.append([other]))
      const held = await first.catalogue()
      const second = await begin(other)
      valueOf(await second.append([one]))
      expect(await second.catalogue()).toEqual(held)
    })

    it('of a print the latest reading holds', async () => {
      const [old, late] = [printRow(), { ...printRow(printHash, minute(50)), file: 'again.gcode' }]
      const store = await begin(old)
      expect(valueOf(await store.append([late]))).toEqual(sum(1))
      expect(valueOf(await store.append([old, late]))).toEqual(sum(0, 1, 1))
      expect(await store.print(printHash)).toEqual(late)
    })

    it('keeps prints bit by bit and lists them latest first', async () => {
      const [one, other] = [printRow(), printRow(`${'c3'.repeat(32)}/plate "2".gcode`, minute(7))]
      const store = await begin(one, other)
      for (const print of [one, other]) {
        expect(JSON.stringify(await store.print(print.id))).toBe(JSON.stringify(print))
      }
      expect(await store.prints()).toEqual(
        [other, one].map(({ id, changed_at, file, bytes }) => ({ id, changed_at, file, bytes })),
      )
      expect(await store.printHeading(other.id)).toEqual((await store.prints())[0])
      expect(await store.printHeading('d4'.repeat(32))).toBeUndefined()
    })

    it('gives all records so that they can be appended elsewhere', async () => {
      const all = [...known, ...factOfEveryKind()]
      const store = await begin(...all)
      const given = await gathered(store.records())
      const other = await begin(...given)
      expect(await gathered(other.records())).toEqual(given)
      expect(byId(given)).toEqual(byId(all))
      expect(given.slice(known.length)).toEqual(all.slice(known.length))
    })

    it('gives records of one moment, whatever is written meanwhile', async () => {
      const before = [opening(), ...Array.from({ length: 1500 }, (_, at) => weighing(at + 1))]
      const store = await begin(...known, ...before)
      const seen: LedgerRecord[] = []
      for await (const record of store.records()) {
        if (seen.length === 0) {
          const moved = { ...scaleRow, changed_at: minute(99), name: 'elsewhere' }
          valueOf(await store.append([weighing(3), moved, printRow(printHash, minute(99))]))
        }
        seen.push(record)
      }
      expect(byId(seen)).toEqual(byId([...known, ...before]))
      expect(await store.facts()).toHaveLength(before.length + 1)
    })

    it('may be read in part', async () => {
      const store = await begin(...known, opening())
      for await (const record of store.records()) {
        expect(record.id).toBeDefined()
        break
      }
      expect(valueOf(await store.append([weighing(2)]))).toEqual(sum(1))
    })

    it('has a revision that a print which is only kept leaves as it is', async () => {
      const store = await begin(...catalogue)
      const before = await store.revision()
      expect(valueOf(await store.append([printRow('d'.repeat(64))]))).toMatchObject({ written: 1 })
      expect(await store.revision()).toBe(before)
      valueOf(await store.append([printRow('e'.repeat(64)), opening()]))
      expect(await store.revision()).toBe(before + 1)
    })

    it('has an id that stays', async () => {
      const store = await begin()
      const id = await store.ledgerId()
      expect(id).toMatch(/^[0-9a-f]{32}$/)
      valueOf(await store.append([...catalogue, opening()]))
      expect(await store.ledgerId()).toBe(id)
      expect(await (await begin()).ledgerId()).not.toBe(id)
      if (base.again === undefined) return
      // The last that was begun is the one that can be opened again.
      const again = await base.again()
      open.push(again)
      expect(await again.ledgerId()).toBe(await open.at(-2)?.ledgerId())
    })

    it('has a revision that grows with every fact and row', async () => {
      const store = await begin()
      const seen = [await store.revision()]
      for (const record of [...catalogue, opening(), weighing(5)]) {
        valueOf(await store.append([record]))
        seen.push(await store.revision())
      }
      expect(seen).toEqual(seen.toSorted((one, other) => one - other))
      expect(new Set(seen).size).toBe(seen.length)
    })

    it('takes calls that come at once', async () => {
      const store = await begin(...catalogue, opening())
      const many = Array.from({ length: 40 }, (_, place) => weighing(place + 1))
      const outcomes = await Promise.all(many.map((fact) => store.append([fact])))
      expect(outcomes.every(({ ok }) => ok)).toBe(true)
      expect((await store.facts()).slice(1)).toEqual(many)
    })

    it('gives back whatever valid record it was given', async () => {
      const store = await begin(...known, opening())
      await fc.assert(
        fc.asyncProperty(
          fc.array(randomFact, { maxLength: 5 }),
          fc.array(randomRow, { maxLength: 3 }),
          fc.array(randomPrint, { maxLength: 2 }),
          async (facts, rows, prints) => {
            const all = [...facts, ...rows, ...prints]
            valueOf(await store.append(all))
            for (const fact of facts) expect(await store.fact(fact.id)).toEqual(fact)
            for (const print of prints) expect(await store.print(print.id)).toEqual(print)
            const held = await store.catalogue()
            for (const row of rows) expect(held).toContainEqual(row)
            expect(valueOf(await store.append(all))).toEqual(sum(0, all.length))
          },
        ),
        { numRuns: 60 },
      )
      const headings = await store.prints()
      for (const { id, file } of headings) expect((await store.print(id))?.file).toBe(file)
    })

    describe.skipIf(base.meddle === undefined)('whoever writes past it', () => {
      it('can not change, delete or replace facts', async () => {
        const store = await begin(...catalogue, opening(), weighing(1))
        const held = await store.facts()
        for (const statement of [
          "update fact set body = '{}'",
          'delete from fact',
          'delete from fact where sequence = 1',
          "insert into fact (sequence, id, kind, at, recorded_at, body) values (1, 'X', 'moved', '', '', '') on conflict (sequence) do update set body = ''",
        ]) {
          await expect(base.meddle!(statement), statement).rejects.toThrow(/facts are never/)
        }
        expect(await store.facts()).toEqual(held)
      })

      it('can not refer to what is not there', async () => {
        await begin(...catalogue, opening())
        const columns = 'sequence, id, kind, at, recorded_at, body'
        for (const column of [
          'reel',
          'make',
          'printer',
          'scale',
          'person',
          'print',
          'voids',
          'instead',
        ]) {
          const statement = `insert into fact (${columns}, ${column}) values (99, 'Y', 'moved', '', '', '', 'none')`
          await expect(base.meddle!(statement), column).rejects.toThrow(/foreign key/i)
        }
      })
    })

    describe.skipIf(base.again === undefined)('with two connections', () => {
      // oxlint-disable-next-line unicorn/consistent-function-scoping -- closed after each test
      const pair = async (): Promise<[Store, Store]> => {
        const first = await begin(...known, opening())
        const second = await base.again!()
        open.push(second)
        return [first, second]
      }

      it('each sees what the other wrote', async () => {
        const [first, second] = await pair()
        const facts: FactJson[] = []
        for (let turn = 0; turn < 20; turn++) {
          const before = await second.revision()
          const fact = weighing(turn + 1)
          facts.push(fact)
          valueOf(await (turn % 2 === 0 ? first : second).append([fact]))
          expect(await first.facts()).toHaveLength(facts.length + 1)
          expect(await second.fact(fact.id)).toEqual(fact)
          expect(await second.revision()).toBeGreaterThan(before)
        }
        expect((await first.facts()).slice(1)).toEqual(facts)
      })

      it('both write at once and nothing is lost', async () => {
        const [first, second] = await pair()
        const many = Array.from({ length: 60 }, (_, place) => weighing(place + 1))
        const outcomes = await Promise.all(
          many.map((fact, place) => (place % 2 === 0 ? first : second).append([fact])),
        )
        expect(outcomes.filter(({ ok }) => !ok)).toEqual([])
        expect(byId((await first.facts()).slice(1))).toEqual(byId(many))
        expect(await second.facts()).toEqual(await first.facts())
      })

      it('of two who looked at the same revision one writes', async () => {
        const [first, second] = await pair()
        const ifRevision = await second.revision()
        const [one, other] = [weighing(11), weighing(12)]
        const outcomes = await Promise.all([
          first.append([one], { ifRevision }),
          second.append([other], { ifRevision }),
        ])
        expect(outcomes.map(codeOf).toSorted()).toEqual(['accepted', 'changed_meanwhile'])
        expect(await first.facts()).toHaveLength(2)
      })

      it('of two who write the same fact one does', async () => {
        const [first, second] = await pair()
        const fact = weighing(77)
        const outcomes = await Promise.all([first.append([fact]), second.append([fact])])
        const written = outcomes.map((outcome) => valueOf(outcome).written)
        expect(written[0]! + written[1]!).toBe(1)
      })
    })
  })
}
