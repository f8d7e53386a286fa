import { type Choices, loadsOf } from './choice.ts'
import type { CompiledSlate, Piece } from './compiled-slate.ts'
import { copyTimes } from './copy-times.ts'
import { askedOf, type LoadJudge } from './load-judge.ts'
import type {
  Duty,
  LevelResult,
  MatchPlan,
  PrinterOrder,
  ReelAfter,
  ServedCopy,
} from './match-plan.ts'
import { missingOfEach } from './missing-filament.ts'
import { levelsOf, planValue, stubOf } from './plan-value.ts'
import { putsOn } from './puts-on.ts'
import { timetableOf } from './timetable.ts'

/**
 * The plan that choices make, every figure of it reckoned from the choices alone, however they were
 * found. A reel that is asked for more than it holds safely is a broken contract.
 *
 * @param bounds - proven least value of each level
 * @throws Error where a load is not safe
 */
export const planOf = (
  slate: CompiledSlate,
  judges: readonly LoadJudge[],
  choices: Choices,
  bounds: readonly number[],
  ended: MatchPlan['ended'],
): MatchPlan => {
  const { copies, printers, confidence, useful_g } = slate
  const loads = loadsOf(choices, slate.reels.length)
  const chances = loads.map((load, reel) => judges[reel]!.chance(load))
  for (const [reel, load] of loads.entries()) {
    if (chances[reel]! < askedOf(load)) {
      throw new Error(`the plan asks too much of reel ${slate.reels[reel]!.id}`)
    }
  }
  const dutyOf = (piece: Piece, reel: number): Duty => ({
    copy: copies[piece.copy]!.id,
    tool: piece.tool,
    printer: printers[piece.printer]!.id,
    reel: slate.reels[reel]!.id,
    afterLayer: nodeOf(slate, piece.task, piece.from) ?? 0,
    untilLayer: nodeOf(slate, piece.task, piece.to),
    needed: judges[reel]!.needed(piece),
  })
  const { orders, sequence } = timetableOf(slate, choices)
  const times = copyTimes(slate, sequence)
  const atPrinter = putsOn(slate, choices, sequence)
  const reelId = (reel: number | null): string | null =>
    reel === null ? null : slate.reels[reel]!.id
  const printerId = (printer: number | null): string | null =>
    printer === null ? null : printers[printer]!.id
  const turnOf = new Map(sequence.map(({ copy }, turn) => [copy, turn]))
  const served = choices.flatMap((choice, place): readonly ServedCopy[] => {
    if (!choice) return []
    const time = times.get(place)!
    const { puts, lastOn } = atPrinter.get(place)!
    const reels = new Set(choice.servings.map(({ reel }) => reel))
    return [
      {
        copy: copies[place]!.id,
        printer: printers[choice.printer]!.id,
        duties: choice.servings.map(({ piece, reel }) => dutyOf(piece, reel)),
        chance: [...reels].reduce((product, reel) => product * chances[reel]!, 1),
        begins_h: time.begins_h,
        ends_h: time.ends_h,
        late: time.late,
        waitsFor: reelId(time.waitsFor),
        waitsAt: time.waitsFor === null ? null : printerId(lastOn(time.waitsFor)),
        putsOn: puts.map(({ tool, reel, off, from }) => ({
          tool,
          reel: slate.reels[reel]!.id,
          off: reelId(off),
          from: printerId(from),
        })),
      },
    ]
  })
  const missingOf = missingOfEach(slate, judges, loads)
  const unserved = choices.flatMap((choice, place) =>
    choice ? [] : [{ copy: copies[place]!.id, missing: missingOf(copies[place]!) }],
  )
  const values = planValue(slate, judges, choices)
  const levels: LevelResult[] = []
  for (const [i, level] of levelsOf(slate).entries()) {
    levels.push({ ...level, value: values[i]!, bound: bounds[i]! })
  }
  return {
    confidence,
    useful_g,
    served,
    unserved,
    reels: loads.map((load, reel): ReelAfter => {
      const left = judges[reel]!.left(load)
      const { id, sealed } = slate.reels[reel]!
      const runs = slate.running.get(reel) ?? []
      return {
        reel: id,
        running: runs.map((piece) => ({
          printer: printers[piece.printer]!.id,
          tool: piece.tool,
          afterLayer: piece.afterLayer,
          untilLayer: piece.untilLayer,
          needed: judges[reel]!.needed(piece),
        })),
        lastsRunning: judges[reel]!.chance([]),
        duties: load
          .toSorted((a, b) => turnOf.get(a.copy)! - turnOf.get(b.copy)!)
          .map((piece) => dutyOf(piece, reel)),
        chance: chances[reel]!,
        before: judges[reel]!.holds,
        left,
        stub: (!sealed || load.length > 0) && stubOf(slate, left.value) > 0,
        opened: sealed && load.length > 0,
      }
    }),
    orders: orders.map(
      ({ printer, copies: order, swaps }): PrinterOrder => ({
        printer: printers[printer]!.id,
        copies: order.map((place) => copies[place]!.id),
        swaps,
      }),
    ),
    levels,
    proven: levels.every(({ value, bound }) => value <= bound + provenWithin),
    ended,
  }
}

/** A level is proven best when no plan can be better by more than this, g or a whole thing. */
const provenWithin = 0.01

const nodeOf = ({ tasks }: CompiledSlate, task: number, node: number): number | null =>
  tasks[task]!.nodes[node]!.afterLayer
