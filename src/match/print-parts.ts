import { type CompiledSlate, type CompiledTask, type Piece, usualChange } from './compiled-slate.ts'

/** The parts into which a task may be changed, on one printer, at all layer ends that are allowed. */
export interface PrintParts {
  /** Layers after which it may be changed, rising. */
  readonly layers: readonly number[]
  /** Most parts that it may have. */
  readonly most: number
  /** What lies between two places among `layers`; −1 the beginning, `layers.length` the end. */
  readonly between: (from: number, to: number) => Piece
}

/** @param printer - by place, one of the copy's */
export const printParts = (
  { confidence, copies, printers }: CompiledSlate,
  task: CompiledTask,
  printer: number,
): PrintParts => {
  const { draw, changes } = task
  const total = draw.reduce((sum, { weight }) => sum + weight, 0)
  const sorted = draw.toSorted((a, b) => b.weight - a.weight)
  const { layerEnd_mm: ends = new Float64Array(), peak_mm } = sorted[0]!
  const layers = changes
    ? (changes.afterLayers ?? Array.from(ends, (_, i) => i + 1))
        .filter((layer) => ends[layer - 1]! > 0 && ends[layer - 1]! < peak_mm)
        .toSorted((a, b) => a - b)
    : []
  const most = changes ? (changes.most ?? 1) + 1 : 1
  const asked = confidence ** (1 / (copies[task.copy]!.tasks.length * most))
  const at = (alternative: (typeof sorted)[number], place: number): number =>
    place < 0
      ? 0
      : place === layers.length
        ? alternative.peak_mm
        : alternative.layerEnd_mm![layers[place]! - 1]!
  return {
    layers,
    most,
    between: (from, to) => ({
      ...task.whole.get(printer)!,
      place: -1,
      // Of its nodes only whether it begins the print is told.
      from: from + 1,
      to: to + 1,
      lengths: sorted.map((alternative) => ({
        weight: alternative.weight / total,
        length_mm: Math.max(0, at(alternative, to) - at(alternative, from)),
      })),
      change_mm: from < 0 ? null : (printers[printer]!.change_mm ?? usualChange),
      confidence: asked,
    }),
  }
}
