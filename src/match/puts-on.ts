import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'
import type { PrintJob } from './print-job.ts'

/** A reel that is put on a tool before a copy begins, by places. */
interface PutOn {
  readonly tool: number
  readonly reel: number
  /** What comes off for it; null for nothing. */
  readonly off: number | null
  /** The printer that it comes off; null where it is on none. */
  readonly from: number | null
}

/** What is done at a printer for a copy, by places. */
export interface AtPrinter {
  readonly puts: readonly PutOn[]
  /** Where a reel was last; null where that was nowhere. */
  readonly lastOn: (reel: number) => number | null
}

/**
 * What has to be put on for each copy along a sequence of them. A reel is on one tool of one printer: put on
 * another it leaves the first, and what a change in mid-print brings stays on until something else comes.
 *
 * @returns by the copy's place
 */
export const putsOn = (
  { copies, printers, reels }: CompiledSlate,
  choices: Choices,
  sequence: readonly PrintJob[],
): ReadonlyMap<number, AtPrinter> => {
  const reelAt = new Map(reels.map(({ id }, place) => [id, place]))
  /** By printer and tool. */
  const on = new Map<string, number>()
  const last = new Map<number, number>()
  const put = (printer: number, tool: number, reel: number): Omit<PutOn, 'tool' | 'reel'> => {
    const at = `${printer} ${tool}`
    const [was] = [...on].find(([, each]) => each === reel) ?? []
    const off = on.get(at) ?? null
    if (was !== undefined) on.delete(was)
    on.set(at, reel)
    last.set(reel, printer)
    const [from] = was?.split(' ') ?? []
    return { off, from: from === undefined || was === at ? null : Number(from) }
  }
  for (const [printer, { loaded = {} }] of printers.entries()) {
    for (const [tool, id] of Object.entries(loaded)) {
      const reel = reelAt.get(id)
      if (reel !== undefined) put(printer, Number(tool), reel)
    }
  }
  return new Map(
    sequence.map(({ copy }): [number, AtPrinter] => {
      const { printer, servings } = choices[copy]!
      const before = new Map(last)
      const puts = copies[copy]!.tasks.flatMap(({ place, tool }): readonly PutOn[] => {
        const [first, ...more] = servings.filter(({ piece }) => piece.task === place)
        const { reel } = first!
        const isOn = on.get(`${printer} ${tool}`) === reel
        const done = put(printer, tool, reel)
        for (const each of more) put(printer, tool, each.reel)
        return isOn ? [] : [{ tool, reel, ...done }]
      })
      return [copy, { puts, lastOn: (reel) => before.get(reel) ?? null }]
    }),
  )
}
