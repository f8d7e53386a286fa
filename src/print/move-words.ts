import type { FeedState } from './feed-state.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import type { Command, Word } from './lex-line.ts'
import { wholePicometres } from './picometres.ts'
import { numberTooLarge, ReadStop } from './read-stop.ts'

/** Largest E number believed, mm: a thousand kilometres. */
const numberBudget = 1e9

/** A feed state and a family it stands for, while a line is applied. */
export interface Head {
  readonly family: FirmwareFamily
  readonly state: FeedState
}

/** G0, G1, G2, G3 and G5: the commands that feed by their E word. */
export const isMove = ({ letter, code }: Command): boolean =>
  letter === 'G' && (code === 0 || code === 1 || code === 2 || code === 3 || code === 5)

/**
 * What a move's E word asks: one value for the active tool, or one for each drive, pm; null without
 * an E word. Moves logical E.
 *
 * @throws ReadStop `expression`, `e_without_number`, `number_too_large`
 */
export function askMove({ state, family }: Head, { words }: Command): number[] | null {
  const word = words.get('E')
  if (word === undefined) return null
  checkE(word)
  if (word.list !== undefined && state.relative && family.splitsLists) {
    state.e += state.targetOf(word.value as number)
    return word.list.map((each, drive) =>
      wholePicometres(state.targetOf(each) * state.factor(drive)),
    )
  }
  return [state.ask(word.value as number)]
}

function checkE(word: Word): void {
  if (word.expression) {
    throw new ReadStop({
      code: 'expression',
      message:
        'E is an expression that only the machine can work out, so the draw can not be read. Export the print without expressions.',
    })
  }
  if (word.value === null) {
    throw new ReadStop({
      code: 'e_without_number',
      message:
        'An E stands without a number; firmware differs in what it does then. The file may be damaged: export it again.',
    })
  }
  if ([word.value, ...(word.list ?? [])].some((value) => !(Math.abs(value) < numberBudget))) {
    throw numberTooLarge()
  }
}

/** A G92 may name E without a number, but not with one that is no number of E. */
export function checkOrigin({ letter, code, words }: Command): void {
  const word = letter === 'G' && code === 92 ? words.get('E') : undefined
  if (word !== undefined && (word.expression || word.value !== null)) checkE(word)
}

/** Feeds what `askMove` returned: one value for the active tool, or one for each drive. */
export function feedAll(state: FeedState, feeds: readonly number[]): void {
  if (feeds.length === 1) state.feed(feeds[0] as number)
  else feeds.forEach((feed, drive) => state.feed(feed, drive))
}

/** Applies a move's E word. */
export function feedMove(head: Head, command: Command): void {
  const feeds = askMove(head, command)
  if (feeds !== null) feedAll(head.state, feeds)
}

/** The E number of a G92, which all families take alike. */
export const originOf = ({ letter, code, words }: Command): number | undefined =>
  letter === 'G' && code === 92 ? (words.get('E')?.value ?? undefined) : undefined
