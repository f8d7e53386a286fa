import { byWorth, decent, type NextMeasure, type PrintVerdict } from '../verdict/index.ts'
import type { ReelOnShelf } from './reel-on-shelf.ts'
import { paint, type Terminal } from './terminal.ts'
import type { ToolFound } from './tool-found.ts'
import { wrap } from './wrap.ts'

/** Options with which the measurements are answered. */
const optionOf: Readonly<Record<string, string>> = {
  weigh_reel: '--gross',
  weigh_empty_carrier: '--tare-of-make',
  calipers: '--calipers',
  weigh_cut_metre: '--cut',
  weigh_around_a_print: '--linear-density and --feed-factor',
  name_firmware: '--firmware',
}

/** The same for a reel of the shelf: there the command writes it down. */
const commandFor = (id: string, { card }: ReelOnShelf): string | undefined => {
  const commands: Readonly<Record<string, string>> = {
    weigh_reel: `reelreckon weigh ${card.id} MASS`,
    weigh_empty_carrier: `reelreckon weigh ${card.id} MASS --empty --another`,
    calipers: `reelreckon measure ${card.id} --calipers PAIRS`,
    weigh_cut_metre: `reelreckon measure ${card.id} --cut 1m=MASS`,
    weigh_around_a_print: 'reelreckon weigh and reelreckon draw',
  }
  return commands[id]
}

/** How a measurement is answered. */
export const answerWith = (id: string, onShelf: ReelOnShelf | undefined): string =>
  (onShelf && commandFor(id, onShelf)) ?? optionOf[id] ?? id

/** A measurement and the tool it is made for. */
interface ToolMeasure extends NextMeasure {
  readonly tool: number
  readonly onShelf: ReelOnShelf | undefined
}

/** Measured once, these tell the same for every tool. */
const ofThePrinter: ReadonlySet<string> = new Set(['name_firmware', 'weigh_around_a_print'])

const measuresOf = (tools: readonly ToolFound[]): readonly ToolMeasure[] => {
  const seen = new Set<string>()
  return tools
    .flatMap(({ tool, next, onShelf }) => next.map((each) => ({ ...each, tool, onShelf })))
    .toSorted(byWorth)
    .filter(({ id }) => {
      const again = ofThePrinter.has(id) && seen.has(id)
      seen.add(id)
      return !again
    })
}

/** What would settle a close call, and how to answer with it; nothing where the call is settled. */
export const settling = (
  terminal: Terminal,
  { verdict }: PrintVerdict,
  tools: readonly ToolFound[],
): readonly string[] => {
  if (verdict !== 'close') return []
  const several = tools.length > 1
  const titled = (words: string, lines: readonly string[]): readonly string[] => [
    '',
    paint(terminal, 'strong', `  ${words}`),
    ...lines,
  ]
  if (tools.some((each) => each.verdict.contradicting.length > 0)) {
    return titled('To settle it', [
      wrap('Find the figure that is wrong, and check again with the right one.', '  ', '  '),
    ])
  }
  const [best, ...others] = measuresOf(tools)
  if (best === undefined) {
    return titled('To settle it', [
      wrap('No measurement known here would. Take a fuller reel, or plan a change.', '  ', '  '),
    ])
  }
  const on = ({ tool }: ToolMeasure): string => (several ? `T${tool} ` : '')
  const rest = others
    .filter(({ settles }) => !several || settles >= seldom)
    .map((each) => `${on(each)}${shortAnswer(each)} (${oddsOf(each)})`)
  const where = several ? `, T${best.tool}` : ''
  return titled(
    best.settles >= decent
      ? `To settle it${where}`
      : `Nothing settles it surely; what helps most${where}`,
    [
      wrap(
        `${best.instruction} ${best.effort_min} min; ${oddsOf(best)}. Answer with ${answerWith(best.id, best.onShelf)}.`,
        '  ',
        '  ',
      ),
      ...(rest.length > 0
        ? [paint(terminal, 'faint', wrap(`or: ${rest.join(', ')}`, '  ', '      '))]
        : []),
    ],
  )
}

/** In a list of others: the whole command would be lost in it. */
const shortAnswer = ({ id, onShelf, instruction }: ToolMeasure): string =>
  onShelf === undefined ? (optionOf[id] ?? id) : (inWords[id] ?? instruction)

/** Measurements in a few words. */
export const inWords: Readonly<Record<string, string>> = {
  weigh_reel: 'weigh it',
  weigh_empty_carrier: 'weigh an empty carrier of its make',
  calipers: 'measure its diameter',
  weigh_cut_metre: 'weigh a cut metre',
  weigh_around_a_print: 'weigh a reel around a print',
  name_firmware: '--firmware',
}

/** Below this a measurement is said to settle it seldom. */
export const seldom = 0.05

export const oddsOf = ({ settles }: NextMeasure): string => {
  const cases = Math.round(settles * 10)
  if (cases === 0) return 'seldom settles it'
  return cases === 10 ? 'nearly always settles it' : `settles it in ${cases} of 10 cases`
}
