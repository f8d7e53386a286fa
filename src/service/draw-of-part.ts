import type { KeptReading, KeptStop } from '../ledger/index.ts'
import { accept, formatCount, type Outcome, refuse } from '../units/index.ts'
import { drawOfStretch } from '../verdict/index.ts'
import type { ToolDrawn } from './tools-drawn.ts'

/** The reel changes that the file itself asks for, in the order of the print. */
export const plannedChanges = (stops: readonly KeptStop[]): readonly KeptStop[] =>
  stops.filter(({ kind }) => kind === 'change')

/**
 * What is drawn of one part of a print, between two planned reel changes.
 *
 * @param tools - of the whole print
 * @param stretch - 1 is the part up to the first change
 * @returns `changes_not_kept`, `stretch_of_several_tools`, `stretch_out_of_range`
 */
export const drawOfPart = (
  { families, stops }: Pick<KeptReading, 'families' | 'stops'>,
  tools: readonly ToolDrawn[],
  stretch: number,
): Outcome<readonly ToolDrawn[]> => {
  if (stops === undefined) {
    return refuse({
      code: 'changes_not_kept',
      message:
        'This print was kept without its planned reel changes. Give its file again, and its parts are known.',
    })
  }
  if (tools.length > 1) {
    return refuse({
      code: 'stretch_of_several_tools',
      message:
        'Parts are for prints with one tool: a planned change does not say whose reel it is.',
    })
  }
  const changes = plannedChanges(stops)
  const parts = changes.length + 1
  if (stretch > parts) {
    return refuse({
      code: 'stretch_out_of_range',
      message: `The file plans ${formatCount(changes.length, 'reel change')}, so it has ${formatCount(parts, 'part')}, not ${stretch}.`,
      expected: `1 to ${parts}`,
      received: `${stretch}`,
    })
  }
  const readAs = families[0]?.families.join(', ') ?? ''
  return accept(
    tools.map(({ tool, draw }) => ({
      tool,
      draw: drawOfStretch(draw, { changes, readAs }, tool, stretch),
    })),
  )
}
