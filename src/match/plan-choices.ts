import type { Choice, Choices } from './choice.ts'
import type { CompiledSlate, Piece } from './compiled-slate.ts'
import type { Duty, MatchPlan } from './match-plan.ts'

/** The pieces that a plan's duties are, looked up once for many of them. */
export const dutyPieces = (
  compiled: CompiledSlate,
  { served }: MatchPlan,
): ((duty: Duty) => Piece | undefined) => {
  const { copies, printers, reels } = compiled
  const copyAt = new Map(copies.map((copy) => [copy.id, copy]))
  const pieces = new Map<string, Piece>()
  for (const { copy, duties } of served) {
    for (const task of copyAt.get(copy)?.tasks ?? []) {
      const own = duties
        .filter((duty) => duty.tool === task.tool)
        .toSorted((a, b) => a.afterLayer - b.afterLayer)
      const isKept = task.locks.every((lock) => own.some((duty) => duty.reel === reels[lock]!.id))
      if (!isKept || own.length > task.mostChanges + 1) continue
      let node = 0
      for (const duty of own) {
        const printer = printers.findIndex(({ id }) => id === duty.printer)
        const reel = task.reels.find((each) => reels[each]!.id === duty.reel)
        const to = task.nodes.findIndex(({ afterLayer }) => afterLayer === duty.untilLayer)
        if (reel === undefined || !task.whole.has(printer) || to <= node) break
        pieces.set(keyOf(duty), compiled.pieceOf(task.place, printer, node, to, reel))
        node = to
      }
    }
  }
  return (duty) => pieces.get(keyOf(duty))
}

const keyOf = ({ copy, tool, printer, reel, afterLayer, untilLayer }: Duty): string =>
  JSON.stringify([copy, tool, printer, reel, afterLayer, untilLayer])

/** The choices that a plan of the slate was made of; null for a copy for which the slate has no such pieces. */
export const choicesOfPlan = (compiled: CompiledSlate, plan: MatchPlan): Choices => {
  const { served } = plan
  const pieceOf = dutyPieces(compiled, plan)
  const reelAt = new Map(compiled.reels.map(({ id }, place) => [id, place]))
  const of = new Map(served.map((each) => [each.copy, each]))
  return compiled.copies.map(({ id }): Choice | null => {
    const one = of.get(id)
    if (!one) return null
    const servings = one.duties.flatMap((duty) => {
      const piece = pieceOf(duty)
      return piece ? [{ piece, reel: reelAt.get(duty.reel)! }] : []
    })
    if (servings.length < one.duties.length) return null
    return {
      printer: compiled.printers.findIndex((printer) => printer.id === one.printer),
      servings,
    }
  })
}
