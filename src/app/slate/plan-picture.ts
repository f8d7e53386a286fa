import type { MatchCopyJson, MatchJson, MatchReelJson } from '../../contract/index.ts'
import type { Figure } from '../strings/show-figure.ts'

/** What one reel does for one tool of one copy, as it is drawn and told. */
export interface DutyPicture {
  /** Stands over the bar and at its line: `1`, or `1b` where there are several copies. */
  readonly mark: string
  readonly waiting: string
  readonly copy: number
  readonly tool: number
  /** True where its print feeds from several tools. */
  readonly tellsTool: boolean
  readonly name: string
  readonly reel: string
  /** All that feed this tool of the copy, in the order in which they do; it alone where nothing is changed. */
  readonly chain: readonly string[]
  /** Name of the printer. */
  readonly printer: string
  readonly needed_g: Figure
  /** Layer after which this reel comes in; 0 where the print begins on it. */
  readonly after_layer: number
  /** Layer after which it is changed for the next one; null where the print ends on it. */
  readonly until_layer: number | null
  readonly late: boolean
  /** A reel that is still on another printer before. */
  readonly waitsFor: string | null
  /** Name of that printer. */
  readonly waitsAt: string | null
  /** From the plan that was kept. */
  readonly differs: boolean
  /** Other reels that fit it and are not forbidden, the fullest first. */
  readonly others: readonly string[]
  readonly why: readonly string[]
}

/** A reel of the plan, as a trough. */
export interface TroughPicture extends Omit<MatchReelJson, 'duties'> {
  readonly duties: readonly DutyPicture[]
}

/** Letters for copies: a … z, then aa, ab … @param place - from 0 */
export const copyLetters = (place: number): string => {
  const letter = String.fromCharCode(97 + (place % 26))
  return place < 26 ? letter : copyLetters(Math.floor(place / 26) - 1) + letter
}

/** By what a copy is known on the sheet. */
export type MarkOf = (copy: Pick<MatchCopyJson, 'waiting' | 'copy'>) => string

/**
 * Marks of copies: the number of the print in the list, and a letter where several of its copies wait. A
 * print that is not in the list any more has a number after those that are.
 *
 * @param order - ids of the waiting prints as they are listed
 */
export function marksOf(
  order: readonly string[],
  copies: readonly Pick<MatchCopyJson, 'waiting' | 'copy'>[],
): MarkOf {
  const byPrint = Map.groupBy(copies, ({ waiting }) => waiting)
  const all = [...new Set([...order, ...byPrint.keys()])]
  return ({ waiting, copy }) => {
    const number = String(all.indexOf(waiting) + 1)
    const own = byPrint.get(waiting) ?? []
    const place = own.findIndex((one) => one.copy === copy)
    return own.length < 2 ? number : number + copyLetters(place)
  }
}

/** The reels that are asked for something, the fullest first. */
export function troughsOf(
  { copies, reels }: Pick<MatchJson, 'copies' | 'reels'>,
  markOf: MarkOf,
): readonly TroughPicture[] {
  const pictures = copies.flatMap((copy) =>
    copy.duties.map(
      (duty): DutyPicture => ({
        ...duty,
        mark: markOf(copy),
        chain: copy.duties.filter(({ tool }) => tool === duty.tool).map(({ reel }) => reel),
        waiting: copy.waiting,
        copy: copy.copy,
        name: copy.name,
        tellsTool: new Set(copy.duties.map(({ tool }) => tool)).size > 1,
        printer: copy.printer_name ?? '',
        late: copy.late,
        waitsFor: copy.waits_for,
        waitsAt: copy.waits_at,
        differs: copy.differs,
      }),
    ),
  )
  return reels
    .filter(({ duties, running }) => duties.length + running.length > 0)
    .map((reel) => {
      // In the order in which the reel gives them.
      const duties = reel.duties.flatMap(
        ({ waiting, copy, tool }) =>
          pictures.find(
            (one) =>
              one.reel === reel.reel &&
              one.waiting === waiting &&
              one.copy === copy &&
              one.tool === tool,
          ) ?? [],
      )
      return Object.assign({}, reel, { duties })
    })
    .toSorted((a, b) => b.holds_g.value - a.holds_g.value)
}

/** Copies of one print that a printer does one after another and nobody has to come for in between. */
export interface TurnPicture {
  readonly first: MatchCopyJson
  /** All of them, in order. */
  readonly copies: readonly MatchCopyJson[]
}

/** What is done along a printer, turn by turn. */
export function turnsOf(
  { copies }: Pick<MatchJson, 'copies'>,
  order: MatchJson['orders'][number]['copies'],
): readonly TurnPicture[] {
  const turns: { first: MatchCopyJson; copies: MatchCopyJson[] }[] = []
  for (const { waiting, copy } of order) {
    const one = copies.find((each) => each.waiting === waiting && each.copy === copy)
    if (one === undefined) continue
    const last = turns.at(-1)
    const goesOn =
      last?.first.waiting === waiting &&
      last.first.late === one.late &&
      last.copies.every(({ changes }) => changes.length === 0) &&
      one.puts_on.length === 0 &&
      one.waits_for === null
    if (goesOn) last.copies.push(one)
    else turns.push({ first: one, copies: [one] })
  }
  return turns
}
