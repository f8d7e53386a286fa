import * as fc from 'fast-check'
import {
  type CatalogueRowJson,
  checkSymbol,
  type FactJson,
  idAlphabet,
  idLength,
  type LedgerRecord,
  type MeasuredFactJson,
  type MeasuredJson,
  type PrintRowJson,
  type TrimmedJson,
  type WeighingJson,
} from '../../src/contract/index.ts'

// Random records that the schemas take: every kind, every key there or not.

const idOf = (length: number): fc.Arbitrary<string> =>
  fc
    .array(fc.constantFrom(...Array.from(idAlphabet)), {
      minLength: length - 1,
      maxLength: length - 1,
    })
    .map((body) => body.join('') + checkSymbol(body.join('')))

export const arbitraryRowId: fc.Arbitrary<string> = idOf(idLength.row)
export const arbitraryFactId: fc.Arbitrary<string> = idOf(idLength.fact)

/** Any moment of a year with four figures. */
export const arbitraryMoment: fc.Arbitrary<string> = fc
  .date({
    min: new Date('0000-01-01T00:00:00.000Z'),
    max: new Date('9999-12-31T23:59:59.999Z'),
    noInvalidDate: true,
  })
  .map((date) => date.toISOString())

/** One line of text, in any script, with whatever a table or JSON might trip over. */
export const arbitraryWords: fc.Arbitrary<string> = fc
  .oneof(
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }),
    fc.constantFrom('=1+1', '"', '\\', 'a,b;c', '\u2028', '🧵', ' x ', '-', '@', "'", '{}'),
  )
  .filter((text) => text.length <= 500 && text.trim() !== '' && !hasControls(text))

// oxlint-disable-next-line no-control-regex -- what controls are is the point
const hasControls = (text: string): boolean => /[\u0000-\u001f\u007f]/.test(text)

/** JSON has no −0. */
const number = (constraints: fc.DoubleConstraints = {}): fc.Arbitrary<number> =>
  fc.double({ noNaN: true, noDefaultInfinity: true, ...constraints }).map((value) => value + 0)

const positive = number({ min: Number.MIN_VALUE, max: 1e9 })
const notNegative = number({ min: 0, max: 1e9 })
const share = number({ min: 0, max: 1 })

const measuredOf = (value: fc.Arbitrary<number>): fc.Arbitrary<MeasuredJson> =>
  fc.record({ value, u: notNegative })

/** A record whose first keys are always there. */
const record = <T>(
  keys: { [Key in keyof T]-?: fc.Arbitrary<Exclude<T[Key], undefined>> },
  requiredKeys: readonly (keyof T)[],
): fc.Arbitrary<T> =>
  fc.record(keys, {
    requiredKeys: [...requiredKeys],
  })

type Of<R extends LedgerRecord, K extends R['kind']> = Extract<R, { readonly kind: K }>

const weighing: fc.Arbitrary<WeighingJson> = record<WeighingJson>(
  {
    scale: arbitraryRowId,
    reading_g: notNegative,
    u_g: positive,
    extra_g: measuredOf(number()),
  },
  ['scale', 'reading_g'],
)

const common = {
  id: arbitraryFactId,
  at: arbitraryMoment,
  recorded_at: arbitraryMoment,
  by: arbitraryRowId,
  note: arbitraryWords,
}
const always = ['kind', 'id', 'at', 'recorded_at'] as const
const reel = arbitraryRowId

const colour = record<{ name: string; srgb?: string }>(
  {
    name: arbitraryWords,
    srgb: fc
      .integer({ min: 0, max: 0xffffff })
      .map((code) => `#${code.toString(16).padStart(6, '0')}`),
  },
  ['name'],
)

const price = fc.record({
  amount: fc.stringMatching(/^\d{1,9}(\.\d{1,4})?$/),
  currency: fc.stringMatching(/^[A-Z]{3}$/),
})

export const arbitraryPrintId: fc.Arbitrary<string> = fc
  .tuple(
    fc.stringMatching(/^[0-9a-f]{64}$/),
    fc.option(
      arbitraryWords.map((name) => `/${name}`),
      { nil: '' },
    ),
  )
  .map((parts) => parts.join(''))

const trimmedInOneWay = ([{ mass_g, length_mm, ...rest }, mass]: readonly [
  TrimmedJson,
  MeasuredJson,
]): TrimmedJson =>
  length_mm === undefined || mass_g !== undefined
    ? { ...rest, mass_g: mass_g ?? mass }
    : { ...rest, length_mm }

const withSomeMeasurement = ([one, density]: readonly [
  MeasuredFactJson,
  MeasuredJson,
]): MeasuredFactJson =>
  (one.calipers ?? one.cut ?? one.immersion ?? one.winding ?? one.linear_density_g_per_m)
    ? one
    : { ...one, density_g_per_cm3: one.density_g_per_cm3 ?? density }

/** A fact of any kind; what it speaks of need not exist. */
const anyFact: fc.Arbitrary<FactJson> = fc.oneof(
  record<Of<FactJson, 'opened'>>(
    {
      kind: fc.constant('opened'),
      ...common,
      reel,
      make: arbitraryRowId,
      label_net_g: positive,
      gross_when_new: weighing,
      part_used: fc.constant(true),
      price,
      colour,
      lot: arbitraryWords,
      place: arbitraryWords,
    },
    [...always, 'reel', 'make'],
  ),
  record<Of<FactJson, 'weighed'>>(
    { kind: fc.constant('weighed'), ...common, reel, weighing, accepted_off: number() },
    [...always, 'reel', 'weighing'],
  ),
  record<Of<FactJson, 'carrier-weighed'>>(
    {
      kind: fc.constant('carrier-weighed'),
      ...common,
      make: arbitraryRowId,
      reel,
      label_net_g: positive,
      weighing,
    },
    [...always, 'make', 'weighing'],
  ),
  record<Of<FactJson, 'drew'>>(
    {
      kind: fc.constant('drew'),
      ...common,
      reel,
      printer: arbitraryRowId,
      length_mm: notNegative,
      print: arbitraryPrintId,
      tool: fc.nat(),
      stopped_at: fc.oneof(
        fc.record({ layer: fc.integer({ min: 1, max: 1e6 }) }),
        fc.record({ share }),
        fc.record({ height_mm: notNegative }),
      ),
      share: measuredOf(share),
      layers: fc.oneof(
        fc.record({ after: fc.integer({ min: 1, max: 1e6 }) }),
        fc.record({ to: fc.integer({ min: 1, max: 1e6 }) }),
      ),
      timed: fc.record({
        took_s: positive,
        planned_s: notNegative,
        waits: fc.dictionary(
          fc.constantFrom('bed', 'nozzle', 'homing'),
          fc.integer({ min: 1, max: 1e6 }),
        ),
      }),
      accepted_off: number(),
    },
    [...always, 'reel', 'printer', 'length_mm'],
  ),
  fc
    .tuple(
      record<Of<FactJson, 'trimmed'>>(
        {
          kind: fc.constant('trimmed'),
          ...common,
          reel,
          mass_g: measuredOf(notNegative),
          length_mm: measuredOf(notNegative),
          accepted_off: number(),
        },
        [...always, 'reel'],
      ),
      measuredOf(notNegative),
    )
    .map(trimmedInOneWay),
  record<Of<FactJson, 'emptied'>>({ kind: fc.constant('emptied'), ...common, reel }, [
    ...always,
    'reel',
  ]),
  record<Of<FactJson, 'ran-dry'>>(
    {
      kind: fc.constant('ran-dry'),
      ...common,
      reel,
      tail_mm: measuredOf(notNegative),
      accepted_off: number(),
    },
    [...always, 'reel'],
  ),
  fc
    .tuple(
      record<Of<FactJson, 'measured'>>(
        {
          kind: fc.constant('measured'),
          ...common,
          reel,
          calipers: record(
            {
              places_mm: fc.array(fc.tuple(positive, positive), { minLength: 1, maxLength: 5 }),
              step_mm: positive,
              error_mm: positive,
            },
            ['places_mm'],
          ),
          cut: fc.record({ length_mm: measuredOf(positive), weighing }),
          immersion: fc.record({
            in_air_g: measuredOf(positive),
            in_water_g: measuredOf(number()),
            water_c: number({ min: 0, max: 40 }),
          }),
          density_g_per_cm3: measuredOf(positive),
          linear_density_g_per_m: measuredOf(positive),
          winding: fc.record({
            hub_mm: measuredOf(positive),
            outer_mm: measuredOf(positive),
            width_mm: measuredOf(positive),
          }),
        },
        [...always, 'reel'],
      ),
      measuredOf(positive),
    )
    .map(withSomeMeasurement),
  record<Of<FactJson, 'data-sheet'>>(
    {
      kind: fc.constant('data-sheet'),
      ...common,
      make: arbitraryRowId,
      source: arbitraryWords,
      density_g_per_cm3: measuredOf(positive),
      tare_g: measuredOf(positive),
    },
    [...always, 'make', 'source'],
  ),
  record<Of<FactJson, 'dried'>>(
    {
      kind: fc.constant('dried'),
      ...common,
      reel,
      temperature_c: number({ min: 0, max: 200 }),
      hours: positive,
      remaining_share: measuredOf(share),
    },
    [...always, 'reel'],
  ),
  record<Of<FactJson, 'moved'>>(
    {
      kind: fc.constant('moved'),
      ...common,
      reel,
      place: arbitraryWords,
      air: fc.constantFrom('room', 'dry'),
    },
    [...always, 'reel', 'place'],
  ),
  record<Of<FactJson, 'retired'>>(
    { kind: fc.constant('retired'), ...common, reel, reason: arbitraryWords },
    [...always, 'reel'],
  ),
  record<Of<FactJson, 'put-right'>>(
    {
      kind: fc.constant('put-right'),
      ...common,
      voids: arbitraryFactId,
      reason: arbitraryWords,
      instead: arbitraryFactId,
    },
    [...always, 'voids', 'reason'],
  ),
)

const rowCommon = { id: arbitraryRowId, changed_at: arbitraryMoment, note: arbitraryWords }
const rowAlways = ['kind', 'id', 'changed_at'] as const
const axes = fc.tuple(positive, positive, positive, positive)

const retired = fc.constant(true as const)

const untilEnd = fc.option(number({ min: 0, max: 1e8 }))
const runningClock = fc.record({ early_s: untilEnd, likely_s: untilEnd, late_s: untilEnd })
const runningPlace = fc.record({
  layer: fc.option(fc.nat(999)),
  height_mm: fc.option(notNegative),
})

/** Nothing is written down before it happened. */
export const arbitraryFact: fc.Arbitrary<FactJson> = anyFact.map((fact) =>
  Date.parse(fact.at) > Date.parse(fact.recorded_at)
    ? Object.assign({}, fact, { at: fact.recorded_at, recorded_at: fact.at })
    : fact,
)

/** A catalogue row of any kind. */
export const arbitraryRow: fc.Arbitrary<CatalogueRowJson> = fc.oneof(
  record<Of<CatalogueRowJson, 'material'>>(
    {
      kind: fc.constant('material'),
      ...rowCommon,
      name: arbitraryWords,
      density_g_per_cm3: measuredOf(positive),
      water_share: measuredOf(notNegative),
    },
    [...rowAlways, 'name'],
  ),
  record<Of<CatalogueRowJson, 'make'>>(
    {
      kind: fc.constant('make'),
      ...rowCommon,
      maker: arbitraryWords,
      name: arbitraryWords,
      material: fc.oneof(fc.constantFrom('pla', 'petg', 'no such'), arbitraryRowId),
      nominal_diameter_mm: positive,
      label_net_g: positive,
      carrier: fc.constantFrom('plastic', 'cardboard', 'refill-core', 'metal'),
    },
    [...rowAlways, 'maker', 'name'],
  ),
  record<Of<CatalogueRowJson, 'printer'>>(
    {
      kind: fc.constant('printer'),
      ...rowCommon,
      name: arbitraryWords,
      firmware: arbitraryWords,
      feed_factor: measuredOf(positive),
      start_allowance_mm: measuredOf(notNegative),
      tail_mm: measuredOf(notNegative),
      change_mm: measuredOf(notNegative),
      motion: fc.record(
        {
          max_feed_mm_per_s: axes,
          max_accel_mm_per_s2: axes,
          print_accel_mm_per_s2: positive,
          travel_accel_mm_per_s2: positive,
          retract_accel_mm_per_s2: positive,
          corner: fc.constantFrom('jerk', 'junction-deviation', 'square-corner'),
          jerk_mm_per_s: axes,
          junction_deviation_mm: positive,
          square_corner_mm_per_s: positive,
          minimum_cruise: fc.double({ min: 0, max: 0.9, noNaN: true }),
        },
        { requiredKeys: [] },
      ),
      retired,
    },
    [...rowAlways, 'name'],
  ),
  record<Of<CatalogueRowJson, 'scale'>>(
    {
      kind: fc.constant('scale'),
      ...rowCommon,
      name: arbitraryWords,
      step_g: positive,
      repeatability_g: notNegative,
      gain: notNegative,
      retired,
    },
    [...rowAlways, 'name', 'step_g', 'repeatability_g', 'gain'],
  ),
  record<Of<CatalogueRowJson, 'person'>>(
    { kind: fc.constant('person'), ...rowCommon, name: arbitraryWords },
    [...rowAlways, 'name'],
  ),
  record<Of<CatalogueRowJson, 'priors'>>(
    {
      kind: fc.constant('priors'),
      ...rowCommon,
      id: fc.constant('priors'),
      priors: fc.dictionary(
        fc.constantFrom('feedFactor', 'carrierKinds.plastic', 'unknownTare.1000', 'noSuchPrior'),
        measuredOf(number()),
        { noNullPrototype: true },
      ),
    },
    [...rowAlways, 'priors'],
  ),
  record<Of<CatalogueRowJson, 'waiting'>>(
    {
      kind: fc.constant('waiting'),
      ...rowCommon,
      name: arbitraryWords,
      print: arbitraryPrintId,
      added_at: arbitraryMoment,
      copies: fc.integer({ min: 1, max: 1000 }),
      done: fc.integer({ min: 1, max: 1000 }),
      tools: fc.array(
        record(
          {
            tool: fc.nat(15),
            material: fc.constantFrom('pla', 'petg', 'no such'),
            colours: fc.array(arbitraryWords, { minLength: 1, maxLength: 3 }),
            diameter_mm: positive,
            reel: arbitraryRowId,
          },
          ['tool'],
        ),
        { maxLength: 3 },
      ),
      printers: fc.array(arbitraryRowId, { minLength: 1, maxLength: 3 }),
      due: arbitraryMoment,
      importance: fc.integer({ min: -9, max: 9 }),
      changes: record(
        {
          most: fc.integer({ min: 1, max: 9 }),
          after_layers: fc.array(
            fc
              .tuple(fc.integer({ min: 1, max: 999 }), fc.nat(99))
              .map(([first, more]): [number, number] => [first, first + more]),
            { minLength: 1, maxLength: 3 },
          ),
        },
        [],
      ),
      duration_h: fc.integer({ min: 1, max: 100 }),
      off: retired,
    },
    [...rowAlways, 'name', 'print', 'added_at', 'copies'],
  ),
  record<Of<CatalogueRowJson, 'running'>>(
    {
      kind: fc.constant('running'),
      ...rowCommon,
      id: arbitraryFactId,
      print: arbitraryPrintId,
      printer: arbitraryRowId,
      started_at: arbitraryMoment,
      recorded_at: arbitraryMoment,
      reels: fc.array(
        record(
          {
            tool: fc.nat(15),
            reel: arbitraryRowId,
            after_layer: fc.integer({ min: 1, max: 999 }),
            ran_dry: retired,
          },
          ['tool', 'reel'],
        ),
        { minLength: 1, maxLength: 3 },
      ),
      firmware: arbitraryWords,
      takes: runningClock,
      told: fc.array(
        record(
          {
            tool: fc.nat(15),
            verdict: fc.constantFrom('enough', 'close', 'short'),
            run_dry: fc.record({
              early: fc.option(runningPlace),
              likely: fc.option(runningPlace),
              clock: fc.option(runningClock),
            }),
            change_before: fc.record({
              layer: fc.integer({ min: 1, max: 999 }),
              height_mm: fc.option(notNegative),
              clock: fc.option(runningClock),
              earlier: fc.array(
                fc.record({
                  layer: fc.integer({ min: 1, max: 999 }),
                  height_mm: fc.option(notNegative),
                  clock: runningClock,
                }),
                { maxLength: 2 },
              ),
            }),
          },
          ['tool', 'verdict'],
        ),
        { maxLength: 3 },
      ),
      waiting: arbitraryRowId,
      ended: fc.constantFrom('finished', 'failed', 'never-ran'),
    },
    [...rowAlways, 'print', 'printer', 'started_at', 'recorded_at', 'reels'],
  ),
  record<Of<CatalogueRowJson, 'plan'>>(
    {
      kind: fc.constant('plan'),
      ...rowCommon,
      id: fc.constant('plan'),
      choices: fc.array(
        record(
          {
            waiting: arbitraryRowId,
            copy: fc.integer({ min: 1, max: 99 }),
            tool: fc.nat(15),
            reel: arbitraryRowId,
            printer: arbitraryRowId,
            after_layer: fc.integer({ min: 1, max: 999 }),
          },
          ['waiting', 'copy', 'tool', 'reel', 'printer'],
        ),
        { maxLength: 3 },
      ),
    },
    [...rowAlways, 'choices'],
  ),
)

const column = fc.array(number(), { maxLength: 6 })

/** A print; its columns need not fit each other. */
export const arbitraryPrint: fc.Arbitrary<PrintRowJson> = fc.record({
  kind: fc.constant('print' as const),
  id: arbitraryPrintId,
  changed_at: arbitraryMoment,
  file: fc.string({ maxLength: 40 }),
  bytes: fc.nat(),
  families: fc.array(
    fc.record({
      families: fc.array(fc.constantFrom('community', 'host', 'meta'), { maxLength: 3 }),
      tools: fc.array(
        fc.record({
          tool: fc.nat(15),
          peak_mm: notNegative,
          net_mm: number(),
          start_macro_mm: notNegative,
          layer_end_mm: column,
          curve: fc.record({
            draw_mm: column,
            height_mm: column,
            layer: fc.array(fc.nat(1e6), { maxLength: 6 }),
            byte: fc.array(fc.nat(), { maxLength: 6 }),
          }),
        }),
        { maxLength: 2 },
      ),
    }),
    { maxLength: 2 },
  ),
  layers: fc.record({
    count: fc.nat(),
    passes: fc.nat(),
    spiral: fc.boolean(),
    step_mm: notNegative,
    height_mm: column,
    end_byte: column,
    end_line: column,
  }),
})

/** A record of any kind that `ledgerRecord` takes. */
export const arbitraryRecord: fc.Arbitrary<LedgerRecord> = fc.oneof(
  { weight: 6, arbitrary: arbitraryFact },
  { weight: 3, arbitrary: arbitraryRow },
  { weight: 1, arbitrary: arbitraryPrint },
)
