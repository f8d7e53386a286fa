import type { ReelOfTool } from '../api/api.ts'
import type { PrintRead, ReadingAtHand } from './use-reading.ts'

/** The one tool that a print feeds from; null where there are several. */
const onlyTool = ({ file, member }: Pick<PrintRead, 'file' | 'member'>): number | null => {
  const [one, ...more] = file.prints[member]?.reading.families[0]?.tools ?? []
  return one === undefined || more.length > 0 ? null : one.tool
}

/** Name of the print at hand, where a reel alone says what it is to be checked on. */
export const printOfOneTool = ({ reading }: Pick<ReadingAtHand, 'reading'>): string | null =>
  reading.kind === 'read' && onlyTool(reading) !== null ? reading.file.name : null

/** Address of the Check of the print at hand on a reel. */
export const checkWay = (reel: string): string => `/?reel=${encodeURIComponent(reel)}`

/** The reel that an address asks for; none of a print that needs several. */
export const reelAsked = (
  read: Pick<PrintRead, 'file' | 'member'>,
  search: string,
): readonly ReelOfTool[] => {
  const reel = new URLSearchParams(search).get('reel')
  const tool = onlyTool(read)
  return reel === null || tool === null ? [] : [{ tool, reel }]
}
