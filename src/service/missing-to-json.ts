import type { MissingJson } from '../contract/index.ts'
import type { MissingFilament } from '../match/index.ts'
import { andList } from './and-list.ts'
import { fitsOf, lockedTo, toolsOf, wantsOf } from './asked-of-tool.ts'
import type { MatchQuestion } from './match-question.ts'
import type { ShelfView } from './shelf-view.ts'
import { wantedWords } from './wanted-words.ts'
import { whyNotInUse } from './why-not-in-use.ts'

/** What a tool of a copy is short of, as figures and in a sentence. */
export const missingToJson = (
  view: Pick<ShelfView, 'rows' | 'cards'>,
  question: MatchQuestion,
  id: string,
  missing: MissingFilament,
): MissingJson => {
  const { tool, needed, short_g, before, nearest } = missing
  const wants = wantsOf(question.copies.get(id)!.row, tool)
  return {
    tool,
    wanted: wantedWords(view.rows, wants),
    needed_g: needed && { value: needed.value, u: needed.u },
    short_g: short_g !== null && Number.isFinite(short_g) ? short_g : null,
    before: before.map(({ reel, untilLayer }) => ({ reel, until_layer: untilLayer })),
    nearest,
    words:
      needed === null || nearest === null
        ? noneFits(view, question, id, tool)
        : `${ofTool(question, id, tool)} takes ${Math.round(needed.value)} g of ${wantedWords(view.rows, wants)}; ${lackOf(question, id, missing)}.`,
  }
}

/** What is spoken of: the print, or of several tools the one. */
const ofTool = (question: MatchQuestion, id: string, tool: number): string =>
  toolsOf(question, id).length > 1 ? `T${tool}` : 'It'

const isForbidden = ({ slate }: MatchQuestion, id: string, reel: string): boolean =>
  slate.barred?.some((bar) => bar.reel === reel && (bar.copy === undefined || bar.copy === id)) ===
  true

const lackOf = (
  question: MatchQuestion,
  id: string,
  { tool, short_g, before, nearest, isBusy }: MissingFilament,
): string => {
  const beside = isBusy ? ' beside what it is asked to do' : ''
  const after = before.map(({ reel, untilLayer }) => `${reel} to layer ${untilLayer}`)
  const rest = after.length === 0 ? '' : ' for the rest'
  const who = `${after.length === 0 ? '' : `with ${after.join(', ')}, `}${nearest}`
  if (short_g === null || !Number.isFinite(short_g)) {
    return `too little is known of ${nearest} to be sure of it, whatever it weighs`
  }
  if (short_g === 0) {
    return toolsOf(question, id).length > 1
      ? 'no reel is left for it beside the others of the print'
      : `${who} has enough${rest === '' ? ' for it' : rest}${beside}, but the search ended before it was planned`
  }
  return `${who}${whichOf(question, id, tool, before.length > 0)} lacks ${Math.ceil(short_g)} g${rest} to be sure enough${beside}`
}

/** Of what reels the nearest is the nearest. */
const whichOf = (question: MatchQuestion, id: string, tool: number, isPart: boolean): string => {
  if (isPart) return ''
  const fits = fitsOf(question, id, tool)
  if (lockedTo(question, id, tool) !== undefined) return ', to which it is locked,'
  if (fits.length === 1) return ', the only one that fits,'
  return fits.some((reel) => isForbidden(question, id, reel))
    ? ', the nearest of those that are not forbidden,'
    : ', the nearest,'
}

/** Why no reel may be taken. */
const noneFits = (
  view: Pick<ShelfView, 'rows' | 'cards'>,
  question: MatchQuestion,
  id: string,
  tool: number,
): string => {
  const fits = fitsOf(question, id, tool)
  const { reel, ...wants } = wantsOf(question.copies.get(id)!.row, tool)
  const wanted = wantedWords(view.rows, wants)
  if (reel !== undefined) {
    const why = fits.includes(reel) ? 'is forbidden' : whyNotInUse(view, reel)
    const note = question.notes.find((each) => each.startsWith(`Reel ${reel} `))
    return `It is to be fed from reel ${reel} only${why === undefined ? `. ${note ?? `That is not ${wanted}.`}` : `, which ${why}.`}`
  }
  if (fits.length === 0) {
    const isLeftOut = question.notes.some((note) => /^Reel \S+ is left out/.test(note))
    return isLeftOut
      ? `No reel on the shelf is ${wanted}, those aside that are left out.`
      : `No reel on the shelf is ${wanted}.`
  }
  const lock = lockedTo(question, id, tool)
  if (lock !== undefined) return `It is locked to ${lock}, which it may not take.`
  return `No reel of ${wanted} is left: ${andList(fits)} ${fits.length === 1 ? 'is' : 'are'} forbidden.`
}
