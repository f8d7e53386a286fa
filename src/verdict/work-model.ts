import {
  covarianceOf,
  type LinearForm,
  marginal,
  standInsOf,
  type WorkBelief,
} from '../estimate/index.ts'
import {
  DomainError,
  type Measured,
  type Millimetres,
  measured,
  millimetres,
} from '../units/index.ts'
import type { MarginModel } from './margin-model.ts'
import { unknownPrinter } from './printer.ts'

/** One thing a reel is asked to do: a print, or the part of one that it feeds. */
export interface WorkPart {
  /** Id of the printer. */
  readonly printer: string
  /** Asked by the file, mm, ≥ 0. */
  readonly length_mm: number
  /** Whether the print begins on this reel: the printer then takes its start allowance. */
  readonly starts: boolean
  /** What a planned change takes of the reel that comes in, mm; nothing unless given. */
  readonly change_mm?: Measured
}

/** Everything that a reel is asked to do, as one draw. */
export interface WorkModel {
  readonly model: MarginModel
  /** What to ask `chanceAt`, `marginAt`, `leftOverAt` and `neededAt` about. */
  readonly draw_mm: number
}

/**
 * Turns what a reel is asked to do into one draw on one printer: the sum of the lengths, a feed factor
 * that is their mean weighted by length, a start allowance that is the sum of all starts and changes.
 * The doubt of the reel is then in it once, that of a printer's means once for all its prints, and what
 * each print has of its own is added in squares. Looks up the belief once, for many sets of parts.
 *
 * @param tails - the unprintable tail of each printer; of several printers the longest counts. A
 *   printer nobody has measured unless given
 * @returns throws DomainError `unknown_id`, `draw_negative`
 * @see docs/method/match.md, "What a reel is asked to do"
 */
export const workReckoner = (
  { standIns, ...belief }: WorkBelief,
  tails: Readonly<Record<string, Measured<Millimetres>>> = {},
): ((parts: readonly WorkPart[]) => WorkModel) => {
  const plain = plainReckoner(belief, tails)
  if (standIns === undefined) return plain
  const under = standInsOf(standIns, (one) => plainReckoner(one, tails))
  return (parts) => {
    const { model, draw_mm } = plain(parts)
    return {
      model: { ...model, standIns: standInsOf(under, (reckon) => reckon(parts).model) },
      draw_mm,
    }
  }
}

const plainReckoner = (
  belief: Omit<WorkBelief, 'standIns'>,
  tails: Readonly<Record<string, Measured<Millimetres>>>,
): ((parts: readonly WorkPart[]) => WorkModel) => {
  const { joint, net, linearDensity, printers } = belief
  const entries = Object.entries(printers)
  const placeOf = new Map(entries.map(([id], place) => [id, place]))
  const forms: readonly LinearForm[] = entries.flatMap(([, { feedFactor, startAllowance }]) => [
    feedFactor,
    startAllowance,
  ])
  const size = forms.length
  const mean = forms.map((form) => marginal(joint, form).value)
  const withNet = forms.map((form) => covarianceOf(joint, net, form))
  const withLinear = forms.map((form) => covarianceOf(joint, linearDensity, form))
  const between = forms.flatMap((a) => forms.map((b) => covarianceOf(joint, a, b)))
  const tailOf = entries.map(([id]) => tails[id] ?? unknownPrinter.tail_mm)
  const reel = {
    net: marginal(joint, net),
    linearDensity: marginal(joint, linearDensity),
    covariance: covarianceOf(joint, net, linearDensity),
  }
  return (parts) => {
    // metres fed in two columns: by length, and by starts
    const lengths = new Float64Array(size)
    const starts = new Float64Array(size)
    let draw = 0
    let change = 0
    let ownFeed = 0
    let ownStart = 0
    let tail: Measured<Millimetres> = measured(millimetres(0))
    for (const { printer, length_mm, starts: begins, change_mm } of parts) {
      const place = placeOf.get(printer)
      if (place === undefined) throw new DomainError('unknown_id', `there is no printer ${printer}`)
      if (!(length_mm >= 0 && length_mm < Infinity)) {
        throw new DomainError('draw_negative', `a print can not draw ${length_mm} mm`)
      }
      const { feedOfOneDraw, startOfOneDraw } = entries[place]![1]
      draw += length_mm
      lengths[2 * place]! += length_mm
      ownFeed += (length_mm * feedOfOneDraw) ** 2
      if (begins) {
        starts[2 * place + 1]! += 1
        ownStart += startOfOneDraw ** 2
      }
      if (change_mm) {
        change += change_mm.value
        ownStart += change_mm.u ** 2
      }
      if (tailOf[place]!.value >= tail.value) tail = tailOf[place]!
    }
    // Of several printers a reel serves few.
    const touched: number[] = []
    for (let i = 0; i < size; i++) if (lengths[i] !== 0 || starts[i] !== 0) touched.push(i)
    const dot = (row: Float64Array, column: readonly number[]): number => {
      let sum = 0
      for (const i of touched) sum += row[i]! * column[i]!
      return sum
    }
    const product = (a: Float64Array, b: Float64Array): number => {
      let sum = 0
      for (const i of touched)
        for (const j of touched) sum += a[i]! * b[j]! * between[i * size + j]!
      return sum
    }
    // Of a draw of nothing the feed factor is no matter.
    const per = draw === 0 ? 0 : 1 / draw
    const model: MarginModel = {
      ...reel,
      printer: {
        feedFactor: measured(
          draw === 0 ? 1 : dot(lengths, mean) * per,
          Math.sqrt(Math.max(0, product(lengths, lengths) + ownFeed)) * per,
        ),
        startAllowance_mm: measured(
          millimetres(dot(starts, mean) + change),
          Math.sqrt(Math.max(0, product(starts, starts) + ownStart)),
        ),
        tail_mm: tail,
      },
      between: {
        netFeed: dot(lengths, withNet) * per,
        netStart: dot(starts, withNet),
        linearDensityFeed: dot(lengths, withLinear) * per,
        linearDensityStart: dot(starts, withLinear),
        feedStart: product(lengths, starts) * per,
      },
    }
    return { model, draw_mm: draw }
  }
}
