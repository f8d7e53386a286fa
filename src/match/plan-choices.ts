import type { Choice, Choices } from './choice.ts'
import type { CompiledSlate, Piece } from './compiled-slate.ts'
import type { Duty, MatchPlan } from './match-plan.ts'

/** The pieces that a plan's duties are, looked up once for many of them. */
export const dutyPieces = (compiled: CompiledSlate): ((duty: Duty) => Piece | undefined) => {
  const { copies, printers } = compiled
  const copyAt = new Map(copies.map((copy) => [copy.id, copy]))
  return ({ copy, tool, printer, afterLayer, untilLayer }) => {
    const task = copyAt.get(copy)?.tasks.find((each) => each.tool === tool)
    if (!task) return undefined
    const at = (layer: number | null): number =>
      task.nodes.findIndex((node) => node.afterLayer === layer)
    const place = printers.findIndex(({ id }) => id === printer)
    const [from, to] = [at(afterLayer), at(untilLayer)]
    return task.whole.has(place) && from >= 0 && to > from
      ? compiled.pieceOf(task.place, place, from, to)
      : undefined
  }
}

/** The choices that a plan of the slate was made of. */
export const choicesOfPlan = (compiled: CompiledSlate, { served }: MatchPlan): Choices => {
  const pieceOf = dutyPieces(compiled)
  const reelAt = new Map(compiled.reels.map(({ id }, place) => [id, place]))
  const of = new Map(served.map((each) => [each.copy, each]))
  return compiled.copies.map(({ id }): Choice | null => {
    const one = of.get(id)
    if (!one) return null
    return {
      printer: compiled.printers.findIndex((printer) => printer.id === one.printer),
      servings: one.duties.map((duty) => ({
        piece: pieceOf(duty)!,
        reel: reelAt.get(duty.reel)!,
      })),
    }
  })
}
