import type { LedgerRecord } from '../../src/contract/index.ts'
import { type BenchPrinter, type BenchScale, bench } from '../bench.ts'
import { trueLinearDensity } from '../reel.ts'
import { reels } from '../reels.ts'
import { Keeper, type TrueReel } from './keeper.ts'
import { harbourSlate } from './slate.ts'
import { type MakeName, makes, type ReelStory, skiff, stories } from './story.ts'

/** The first Saturday of the ledger. */
const begun = Date.UTC(2025, 0, 11, 9)
const week = 7 * 86_400_000
const minute = 60_000

const scaleRows = {
  kitchen: { step_g: 1, repeatability_g: 0.3, gain: 0.0005 },
  letter: { step_g: 0.01, repeatability_g: 0.01, gain: 0.001 },
} as const

/** What the bench wrote down in its first forty weeks, the same at every run. */
export const harbourLedger = (): readonly LedgerRecord[] => {
  const keeper = new Keeper(20_250_111)
  const at = (weeks: number, minutes: number): void => {
    keeper.moment(new Date(begun + Math.floor(weeks) * week + minutes * minute))
  }
  at(0, 0)
  const [tilde, corwin, mags] = bench.people.map((name) => keeper.row({ kind: 'person', name }))
  const scaleIds = Object.fromEntries(
    Object.entries(scaleRows).map(([name, row]) => [
      name,
      keeper.row({ kind: 'scale', name: `${name} scale`, ...row }),
    ]),
  )
  const kitchen = scaleIds['kitchen']!
  const { gull, pair } = bench.printers
  const printerIds = new Map(
    [gull, pair, skiff].map((printer) => [
      printer.name,
      keeper.row({ kind: 'printer', name: printer.nickname, note: printer.name }),
    ]),
  )
  const makeIds = Object.fromEntries(
    Object.entries(makes).map(([name, row]) => [name, keeper.row({ kind: 'make', ...row })]),
  ) as Readonly<Record<MakeName, string>>
  const sheet = (make: MakeName, value: number): void => {
    keeper.say({
      kind: 'data-sheet',
      make: makeIds[make],
      by: corwin!,
      source: 'leaflet in the box',
      density_g_per_cm3: { value, u: 0 },
    })
  }
  sheet('tessamund', 1.24)
  sheet('tessamundRefill', 1.24)
  sheet('brannoc', 1.27)
  sheet('hallvaneTpu', 1.21)

  const weigh = (reel: TrueReel, by: string): void => {
    const reading_g = keeper.reading(reel.tare_g + reel.net_g, bench.scales.kitchen)
    keeper.say({ kind: 'weighed', reel: reel.id, by, weighing: { scale: kitchen, reading_g } })
  }
  const carrier = (make: MakeName, tare_g: number, scale: BenchScale, of?: string): void => {
    const weighing = { scale: kitchen, reading_g: keeper.reading(tare_g, scale) }
    keeper.say({
      kind: 'carrier-weighed',
      make: makeIds[make],
      ...(of !== undefined && { reel: of }),
      by: tilde!,
      weighing,
    })
  }
  const printerId = ({ name }: BenchPrinter): string => printerIds.get(name)!

  const lived = (story: ReelStory, place: number): string => {
    const {
      reel: { colour, known, hidden },
      make,
      from,
      to,
      prints,
    } = story
    const list = prints.flatMap(([times, print, printer]) =>
      Array.from({ length: times }, () => ({ print, printer })),
    )
    const reel: TrueReel = {
      id: keeper.newId(),
      make: makeIds[make],
      tare_g: hidden.tare_g,
      linearDensity_gPerM: trueLinearDensity(hidden),
      net_g: hidden.net_g,
    }
    // What it holds today is given: what was taken is put on before the story is told.
    const taken = list.map(({ print, printer }) =>
      keeper.taken(reel, print.truth.tools[0]!.peak_mm, printer.hidden),
    )
    const jigs_g = story.jigs_mm === undefined ? 0 : keeper.taken(reel, story.jigs_mm, gull.hidden)
    const cut_g = ((known.cut?.length_mm ?? 0) / 1000) * reel.linearDensity_gPerM
    reel.net_g += taken.reduce((sum, each) => sum + each, jigs_g + cut_g)

    at(from, 5 * place)
    const scale = kitchen
    const isNew = story.partUsed !== true
    keeper.opened(reel, {
      by: tilde!,
      ...(known.labelNet_g !== undefined && { label_net_g: known.labelNet_g }),
      ...(known.grossNew_g !== undefined && {
        gross_when_new: {
          scale,
          reading_g: keeper.reading(reel.tare_g + reel.net_g, bench.scales.kitchen),
        },
      }),
      ...(!isNew && { part_used: true }),
      ...(story.price !== undefined && { price: { amount: story.price, currency: 'EUR' } }),
      colour: { name: colour, srgb: story.srgb },
      place: story.place,
    })
    if (known.diameterPairs_mm !== undefined) {
      keeper.say({
        kind: 'measured',
        reel: reel.id,
        by: mags!,
        calipers: { places_mm: known.diameterPairs_mm, step_mm: 0.01 },
      })
    }
    if (known.cut !== undefined) {
      const length_mm = { value: known.cut.length_mm, u: 1 }
      const weighing = { scale: scaleIds['letter']!, reading_g: known.cut.mass_g }
      keeper.say({ kind: 'measured', reel: reel.id, by: mags!, cut: { length_mm, weighing } })
      keeper.say({ kind: 'trimmed', reel: reel.id, by: mags!, length_mm })
      reel.net_g -= cut_g
    }
    const weeks = (to - from) / Math.max(1, list.length)
    for (const [i, { print, printer }] of list.entries()) {
      at(from + (i + 1) * weeks, 60 + 5 * place)
      keeper.say({
        kind: 'drew',
        reel: reel.id,
        printer: printerId(printer),
        length_mm: Number(print.truth.tools[0]!.peak_mm.toFixed(2)),
        by: corwin!,
        note: print.name.replaceAll('-', ' '),
      })
      reel.net_g -= taken[i]!
      if (story.weighedEvery !== undefined && (i + 1) % story.weighedEvery === 0) {
        at(from + (i + 1) * weeks, 180 + 5 * place)
        weigh(reel, corwin!)
      }
    }
    if (story.jigs_mm !== undefined) {
      at(to, 240 + 5 * place)
      keeper.say({
        kind: 'drew',
        reel: reel.id,
        printer: printerId(gull),
        length_mm: story.jigs_mm,
        by: mags!,
        note: 'jigs for the bench',
      })
      reel.net_g -= jigs_g
    }
    // The carriers that were weighed themselves, or will be: nobody knows the others' for now.
    if (known.tare.by === 'weighed' && ['black', 'driftwood'].includes(story.reel.name)) {
      at(from, 2 + 5 * place)
      carrier(make, hidden.tare_g, bench.scales.kitchen, reel.id)
    }
    if (story.weighedEvery === undefined && (list.length > 0 || !isNew)) {
      at(Math.max(from, to), 300 + 5 * place)
      weigh(reel, mags!)
    }
    return reel.id
  }
  const ids = new Map(stories.map((story, place) => [story.reel.name, lived(story, place)]))

  // An older blue one ran out on the Pair; its carrier is what the bench knows of that make.
  const gone: TrueReel = {
    id: keeper.newId(),
    make: makeIds.ostrelle,
    tare_g: 153.8,
    linearDensity_gPerM: trueLinearDensity(reels.blue.hidden),
    net_g: 0,
  }
  at(0, 90)
  keeper.opened(gone, {
    by: tilde!,
    label_net_g: 1000,
    part_used: true,
    colour: { name: 'signal-flag blue', srgb: '#1f4e8c' },
    place: 'on the Pair',
  })
  at(9, 150)
  keeper.say({ kind: 'ran-dry', reel: gone.id, by: mags! })
  at(9, 160)
  carrier('ostrelle', gone.tare_g, bench.scales.kitchen, gone.id)
  at(9, 165)
  keeper.say({ kind: 'retired', reel: gone.id, by: mags!, reason: 'ran out' })

  // Somebody wrote a tackle box down on the yellow reel, which nobody had opened.
  at(37, 200)
  const slip = keeper.say({
    kind: 'drew',
    reel: ids.get('yellow')!,
    printer: printerId(gull),
    length_mm: 48_630,
    by: corwin!,
    note: 'tackle box',
  })
  at(37, 230)
  keeper.say({
    kind: 'put-right',
    voids: slip,
    by: tilde!,
    reason: 'it was printed in white, and stands there',
  })
  const waits = harbourSlate(new Date(begun + 40 * week).toISOString(), () => keeper.newId())
  return [...waits, ...keeper.records()]
}

/** The ledger as lines of JSON, with its header: what `--ledger FILE` takes. */
export const harbourLedgerText = (): string => {
  const header = {
    kind: 'reelreckon-ledger',
    format: 1,
    written_at: new Date(begun + 41 * week).toISOString(),
  }
  return [header, ...harbourLedger()].map((line) => `${JSON.stringify(line)}\n`).join('')
}

if (import.meta.main) process.stdout.write(harbourLedgerText())
