// oxlint-disable oxc/no-map-spread -- arbitraries are no lists
import * as fc from 'fast-check'
import type {
  CatalogueRowJson,
  FactJson,
  MeasuredJson,
  PrintRowJson,
} from '../../src/contract/index.ts'
import {
  make,
  minute,
  newFactId,
  newRowId,
  person,
  printer,
  printHash,
  reel,
  scale,
} from './records.ts'

/** -0 has no place in JSON. */
const plus = (value: number): number => (value === 0 ? 0 : value)
const anyNumber = fc.double({ noNaN: true, noDefaultInfinity: true }).map(plus)
const notNegative = fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }).map(plus)
const positive = fc.double({ min: Number.MIN_VALUE, noNaN: true, noDefaultInfinity: true })
const share = fc.double({ min: 0, max: 1, noNaN: true }).map(plus)
const moment = fc.integer({ min: 0, max: 1e7 }).map(minute)
/** A line as a person may write it, in any script, half a surrogate pair included. */
const words = fc
  .string({ unit: 'binary', minLength: 1, maxLength: 60 })
  // oxlint-disable-next-line no-control-regex -- what controls are is the point
  .map((text) => `a${text.replaceAll(/[\u0000-\u001f\u007f]/g, ' ')}`)

const measured = (value: fc.Arbitrary<number>): fc.Arbitrary<MeasuredJson> =>
  fc.record({ value, u: notNegative })
const maybe = { requiredKeys: [] as [] }
const said = fc.record({ note: words, by: fc.constant(person) }, maybe)
const when = fc.record({ at: moment, recorded_at: moment })
const factId = fc.constant(undefined).map(newFactId)
const stood = fc.record(
  { reading_g: notNegative, u_g: positive, extra_g: measured(anyNumber) },
  { requiredKeys: ['reading_g'] },
)

const fact = <T extends object>(parts: fc.Arbitrary<T>): fc.Arbitrary<FactJson> =>
  fc
    .tuple(factId, when, said, parts)
    .map(([id, moments, more, own]) => ({ id, ...moments, ...more, ...own }) as unknown as FactJson)

/** Any fact of `reel`, which has to be open. */
export const randomFact: fc.Arbitrary<FactJson> = fc.oneof(
  fact(stood.map((read) => ({ kind: 'weighed', reel, weighing: { scale, ...read } }))),
  fact(
    fc.tuple(stood, fc.boolean()).map(([read, sized]) => ({
      kind: 'carrier-weighed',
      make,
      ...(sized && { label_net_g: 3000 }),
      weighing: { scale, ...read },
    })),
  ),
  fact(
    fc.tuple(notNegative, fc.option(share), fc.boolean()).map(([length_mm, reached, kept]) => ({
      kind: 'drew',
      reel,
      printer,
      length_mm,
      ...(kept && { print: printHash }),
      ...(reached !== null && { stopped_at: { share: reached } }),
    })),
  ),
  fact(measured(notNegative).map((mass_g) => ({ kind: 'trimmed', reel, mass_g }))),
  fact(
    measured(positive).map((density) => ({ kind: 'measured', reel, density_g_per_cm3: density })),
  ),
  fact(words.map((place) => ({ kind: 'moved', reel, place }))),
  fact(words.map((source) => ({ kind: 'data-sheet', make, source }))),
)

export const randomRow: fc.Arbitrary<CatalogueRowJson> = fc.oneof(
  fc.tuple(moment, words, words).map(
    ([changed_at, maker, name]): CatalogueRowJson => ({
      kind: 'make',
      id: newRowId(),
      changed_at,
      maker,
      name,
    }),
  ),
  fc.tuple(moment, moment, fc.option(words)).map(
    ([changed_at, started_at, note]): CatalogueRowJson => ({
      kind: 'running',
      id: newFactId(),
      changed_at,
      ...(note !== null && { note }),
      print: printHash,
      printer,
      started_at,
      recorded_at: changed_at,
      reels: [{ tool: 0, reel }],
    }),
  ),
  fc.tuple(moment, words, positive, notNegative, notNegative).map(
    ([changed_at, name, step_g, repeatability_g, gain]): CatalogueRowJson => ({
      kind: 'scale',
      id: newRowId(),
      changed_at,
      name,
      step_g,
      repeatability_g,
      gain,
    }),
  ),
)

/** Never the same twice: arbitraries of hexadecimal digits come back to their simplest. */
const newHash = fc
  .constant(undefined)
  .map(() => Buffer.from(newFactId()).toString('hex').padStart(64, '0'))

/** A print whose names may have anything in them that a file system takes, and more. */
export const randomPrint: fc.Arbitrary<PrintRowJson> = fc
  .tuple(
    newHash,
    fc.option(fc.string({ unit: 'binary', minLength: 1, maxLength: 40 })),
    fc.string({ unit: 'binary', maxLength: 100 }),
    moment,
    fc.array(anyNumber, { maxLength: 20 }),
  )
  .map(([hash, member, file, changed_at, column]) => ({
    kind: 'print',
    id: member === null ? hash : `${hash}/${member}`,
    changed_at,
    file,
    bytes: 2 ** 40,
    families: [
      {
        families: ['any'],
        tools: [
          {
            tool: 0,
            peak_mm: 1,
            net_mm: 1,
            start_macro_mm: 0,
            layer_end_mm: column,
            curve: { draw_mm: column, height_mm: column, layer: column, byte: column },
          },
        ],
      },
    ],
    layers: {
      count: 0,
      passes: 0,
      spiral: false,
      step_mm: 0,
      height_mm: column,
      end_byte: [],
      end_line: [],
    },
  }))
