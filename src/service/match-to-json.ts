import type {
  ClockJson,
  DutyJson,
  MatchCopyJson,
  MatchJson,
  MatchReelJson,
  MeasuredJson,
  PlannedChangeJson,
  RemedyJson,
} from '../contract/index.ts'
import { marginal } from '../estimate/index.ts'
import {
  type Duty,
  type MatchPlan,
  type MissingFilament,
  type ReelAfter,
  type ServedCopy,
  usualChange,
} from '../match/index.ts'
import { formatChance, type Measured } from '../units/index.ts'
import { reachedAt, unknownPrinter } from '../verdict/index.ts'
import { changeNote } from './change-note.ts'
import { secondsToJson } from './clock-to-json.ts'
import type { CopyAsked, MatchQuestion } from './match-question.ts'
import { reasonsOf } from './match-reasons.ts'
import { missingToJson } from './missing-to-json.ts'
import { paceOfPrinter } from './pace-of-printer.ts'
import type { ShelfView } from './shelf-view.ts'

const figure = ({ value, u }: Measured): MeasuredJson => ({ value, u })

/** A plan as data: every copy, every reel, the order of each printer, with the reasons. */
export const matchToJson = (
  view: Pick<ShelfView, 'rows' | 'standing' | 'cards'>,
  question: MatchQuestion,
  plan: MatchPlan,
  remedies: ReadonlyMap<string, readonly RemedyJson[]>,
  isKept: boolean,
): MatchJson => {
  const { copies, reels, notes } = question
  const why = reasonsOf(question, plan)
  const served = new Map(plan.served.map((each) => [each.copy, each]))
  const unserved = new Map(plan.unserved.map((each) => [each.copy, each.missing]))
  const fitting = new Set(
    question.slate.copies.flatMap(({ tasks }) => tasks.flatMap(({ fits }) => fits)),
  )
  const shown = plan.reels.filter(
    ({ reel, running, duties }) => fitting.has(reel) || running.length + duties.length > 0,
  )
  return {
    confidence: plan.confidence,
    useful_g: plan.useful_g,
    ended: plan.ended,
    proven: plan.proven,
    kept: isKept,
    levels: plan.levels.map(({ level, importance, value, bound }) => ({
      level,
      importance: importance ?? null,
      value,
      bound,
    })),
    copies: [...copies.values()].map((asked) =>
      copyToJson(view, question, plan, asked, {
        served: served.get(asked.id),
        missing: unserved.get(asked.id) ?? [],
        remedies: remedies.get(asked.id) ?? [],
        why,
      }),
    ),
    reels: shown.map((after): MatchReelJson => {
      const { reel, duties, chance, before, left, stub, opened } = after
      const offered = reels.get(reel)!
      return {
        reel,
        name: offered.name,
        colour_srgb: offered.srgb,
        holds_g: figure(before),
        left_g: figure(left),
        tail_g: tailOf(question, reel, duties),
        chance,
        stub,
        opened,
        imagined: offered.card === undefined,
        running: runningToJson(question, after),
        duties: duties.map((duty) => {
          const { row, copy } = copies.get(duty.copy)!
          return {
            waiting: row.id,
            copy,
            tool: duty.tool,
            name: row.name,
            needed_g: figure(duty.needed),
          }
        }),
      }
    }),
    orders: plan.orders.map(({ printer, copies: ids, swaps }) => ({
      printer,
      name: question.printers.get(printer)!.name,
      free_h: question.running.get(printer)?.free_h ?? 0,
      running: [...new Set(question.running.get(printer)?.draws.map(({ file }) => file))],
      copies: ids.map((id) => ({ waiting: copies.get(id)!.row.id, copy: copies.get(id)!.copy })),
      swaps,
    })),
    notes: [...notes, ...notesOfRunning(question, plan)],
  }
}

const runningToJson = (
  { running: on, printers }: MatchQuestion,
  { reel, running, lastsRunning }: ReelAfter,
): MatchReelJson['running'] =>
  running.map(({ printer, tool, afterLayer, untilLayer, needed }) => ({
    printer,
    printer_name: printers.get(printer)!.name,
    file: on.get(printer)!.draws.find((each) => each.reel === reel && each.tool === tool)!.file,
    tool,
    after_layer: afterLayer,
    until_layer: untilLayer,
    needed_g: figure(needed),
    chance: lastsRunning,
  }))

/** What a person should know of prints that run: a reel that may not last, and one that may run unsaid. */
const notesOfRunning = (question: MatchQuestion, plan: MatchPlan): readonly string[] => {
  const { running: on, printers, slate } = question
  const short = plan.reels.flatMap((after) =>
    after.lastsRunning >= plan.confidence
      ? []
      : [
          ...Map.groupBy(runningToJson(question, after), ({ printer, file }) =>
            JSON.stringify([printer, file]),
          ).values(),
        ].map((parts) => shortRunning(after, parts)),
  )
  const unsaid = slate.printers.flatMap(({ id, loaded = {} }) => {
    const runs = on.get(id)
    if (runs === undefined || Object.keys(runs.loaded).length > 0) return []
    const planned = Object.values(loaded).filter((reel) =>
      plan.reels.some((each) => each.reel === reel && each.duties.length > 0),
    )
    const { name } = printers.get(id)!
    return planned.map(
      (reel) =>
        `${reel} was last on ${name}, which is at work: what that print takes of it is not counted. Tell what runs there and from which reel, or the plan may ask too much of ${reel}.`,
    )
  })
  return [...short, ...unsaid]
}

/** That a reel may not last for what it feeds of one print, or may not have. */
const shortRunning = (
  { reel, before, lastsRunning }: ReelAfter,
  parts: MatchReelJson['running'],
): string => {
  const { file, printer_name: printer } = parts[0]!
  const where = parts.map(layersOf).join(' and ')
  const runs = `${file}, which runs on ${printer},`
  const takes = `${Math.round(parts.reduce((sum, { needed_g }) => sum + needed_g.value, 0))} g`
  const holds = `${Math.round(before.value)} g`
  return parts.some(({ until_layer }) => until_layer === null)
    ? `${runs} takes ${takes}${where}, and ${reel} holds ${holds}: it lasts with ${formatChance(lastsRunning)} only. Nothing more is planned from it; look after it before it runs dry.`
    : `${runs} took ${takes} of ${reel}${where}; it is believed to have held ${holds}. Nothing more is planned from it; weigh it.`
}

const layersOf = ({
  after_layer: after,
  until_layer: until,
}: MatchReelJson['running'][number]): string => {
  if (until === null) return after === 0 ? '' : ` from layer ${after + 1} on`
  return after === 0 ? ` up to layer ${until}` : ` in layers ${after + 1} to ${until}`
}

/** What can not be printed of a reel, g: the longest tail of the printers that it is to be on. */
const tailOf = (
  { slate, reels }: MatchQuestion,
  reel: string,
  duties: readonly Duty[],
): MeasuredJson => {
  const { belief } = reels.get(reel)!
  const perMetre = marginal(belief.joint, belief.linearDensity)
  const tails = slate.printers
    .filter(({ id }) => duties.length === 0 || duties.some(({ printer }) => printer === id))
    .map(({ tail_mm }) => tail_mm ?? unknownPrinter.tail_mm)
  const tail = tails.reduce((a, b) => (b.value > a.value ? b : a))
  return {
    value: (tail.value * perMetre.value) / 1000,
    u: Math.hypot(tail.u * perMetre.value, tail.value * perMetre.u) / 1000,
  }
}

/** What the file asks of the duty's part of the print, by the reading that is likeliest, mm. */
const lengthOf = (
  { slate }: MatchQuestion,
  { copy, tool, afterLayer, untilLayer }: Duty,
): number => {
  const [draw] = slate.copies
    .find(({ id }) => id === copy)!
    .tasks.find((task) => task.tool === tool)!
    .draw.toSorted((a, b) => b.weight - a.weight)
  const at = (layer: number): number => draw?.layerEnd_mm?.[layer - 1] ?? 0
  const from = afterLayer === 0 ? 0 : at(afterLayer)
  return Math.max(0, (untilLayer === null ? (draw?.peak_mm ?? 0) : at(untilLayer)) - from)
}

interface CopyParts {
  readonly served: ServedCopy | undefined
  readonly missing: readonly MissingFilament[]
  readonly remedies: readonly RemedyJson[]
  readonly why: (duty: Duty) => string
}

const copyToJson = (
  view: Pick<ShelfView, 'rows' | 'standing' | 'cards'>,
  question: MatchQuestion,
  plan: MatchPlan,
  { id, row, copy, print }: CopyAsked,
  { served, missing, remedies, why }: CopyParts,
): MatchCopyJson => {
  const duties = (served?.duties ?? []).map(
    (duty): DutyJson => ({
      tool: duty.tool,
      reel: duty.reel,
      reel_name: question.reels.get(duty.reel)!.name,
      after_layer: duty.afterLayer,
      until_layer: duty.untilLayer,
      needed_g: figure(duty.needed),
      others: othersOf(question, plan, duty),
      why: [why(duty)],
    }),
  )
  const printer = served === undefined ? undefined : question.printers.get(served.printer)
  const printerName = (its: string | null | undefined): string | null =>
    question.printers.get(its ?? '')?.name ?? null
  const changes = changesOf(view, question, plan, served)
  const number = row.copies > 1 ? `, copy ${copy}` : ''
  return {
    waiting: row.id,
    copy,
    name: row.name,
    due: row.due ?? null,
    printer: printer?.id ?? null,
    printer_name: printer?.name ?? null,
    chance: served?.chance ?? null,
    begins_h: served?.begins_h ?? null,
    ends_h: served?.ends_h ?? null,
    late: served?.late ?? false,
    waits_for: served?.waitsFor ?? null,
    waits_at: printerName(served?.waitsAt),
    puts_on: (served?.putsOn ?? []).map(({ tool, reel, off, from }) => ({
      tool,
      reel,
      off,
      from: printerName(from),
    })),
    differs: differs(question, id, served),
    duties,
    changes,
    note:
      changes.length === 0
        ? null
        : changeNote({
            title: `${row.name}${number}, on ${printer?.name}: ${print.file}`,
            changes,
            begins: duties.filter(({ after_layer }) => after_layer === 0),
            nameOf: (reel) => question.reels.get(reel)!.name,
          }),
    missing: missing.map((each) => missingToJson(view, question, id, each)),
    remedies,
  }
}

/** The reels that a person may wish for in place of one: those that fit and are not forbidden. */
const othersOf = (
  { slate }: MatchQuestion,
  { reels }: MatchPlan,
  { copy, tool, reel }: Duty,
): readonly string[] => {
  const fits = slate.copies
    .find(({ id }) => id === copy)!
    .tasks.find((task) => task.tool === tool)!.fits
  const barred = slate.barred?.filter((bar) => bar.copy === undefined || bar.copy === copy) ?? []
  return reels
    .filter(
      ({ reel: id }) => id !== reel && fits.includes(id) && barred.every((bar) => bar.reel !== id),
    )
    .toSorted((a, b) => b.before.value - a.before.value)
    .map(({ reel: id }) => id)
}

/** Whether the copy was planned otherwise before; false where it was not planned at all. */
const differs = ({ slate }: MatchQuestion, id: string, served: ServedCopy | undefined): boolean => {
  const before = slate.earlier?.filter(({ copy }) => copy === id) ?? []
  if (before.length === 0) return false
  const now = served?.duties ?? []
  return (
    now.length !== before.length ||
    before.some(
      ({ tool, reel, printer }) =>
        !now.some((duty) => duty.tool === tool && duty.reel === reel && duty.printer === printer),
    )
  )
}

const changesOf = (
  view: Pick<ShelfView, 'standing'>,
  question: MatchQuestion,
  plan: MatchPlan,
  served: ServedCopy | undefined,
): readonly PlannedChangeJson[] => {
  const all = served?.duties ?? []
  return all.flatMap((duty) => {
    const before = all.find(
      ({ tool, untilLayer }) => tool === duty.tool && untilLayer === duty.afterLayer,
    )
    if (duty.afterLayer === 0 || before === undefined) return []
    const { belief } = question.reels.get(duty.reel)!
    const perMetre = marginal(belief.joint, belief.linearDensity)
    const change =
      question.slate.printers.find(({ id }) => id === duty.printer)?.change_mm ?? usualChange
    const value = (change.value / 1000) * perMetre.value
    const relative = Math.hypot(
      change.value === 0 ? 0 : change.u / change.value,
      perMetre.u / perMetre.value,
    )
    const asked = question.copies.get(duty.copy)!
    const first = { ...duty, afterLayer: 0, untilLayer: duty.afterLayer }
    return [
      {
        tool: duty.tool,
        after_layer: duty.afterLayer,
        height_mm: asked.print.layers.height_mm[duty.afterLayer - 1] ?? 0,
        drawn_mm: lengthOf(question, first),
        from: before.reel,
        to: duty.reel,
        stays_g: figure(plan.reels.find(({ reel }) => reel === before.reel)!.left),
        cost_g: { value, u: value * relative },
        clock: clockOf(view, asked, duty),
      },
    ]
  })
}

/** When a change comes: its share of what was told that the print takes, else as its moves are planned. */
const clockOf = (
  view: Pick<ShelfView, 'standing'>,
  { row, print: { layers, time } }: CopyAsked,
  { afterLayer, printer }: Duty,
): ClockJson | null => {
  const planned = layers.endTime_s?.[afterLayer - 1]
  if (time === null || planned === undefined) return null
  if (row.duration_h === undefined) {
    return secondsToJson(reachedAt({ time, pace: paceOfPrinter(view, printer) }, planned))
  }
  const at_s = (3600 * row.duration_h * planned) / time.total_s
  return secondsToJson({ early_s: at_s, likely_s: at_s, late_s: at_s })
}
