import {
  type CheckJson,
  disagreement,
  type ReelWorkingJson,
  type RunDryPointJson,
} from '../../contract/index.ts'
import type { DrawDoubt } from '../../print/index.ts'
import { saidIn } from './said-in.ts'
import { type MassUnit, showChance, showHeight, showMass, whole } from './show-figure.ts'

const megabytes = (bytes: number): string => (bytes / 1e6).toFixed(bytes < 1e7 ? 1 : 0)
const people = new Intl.NumberFormat('en-GB')

const place = ({ layer, height_mm, share }: RunDryPointJson, spiral: boolean): string => {
  const percent = `${whole(`${Math.round(share * 100)} %`)} of the print`
  if (height_mm === null || layer === null) return percent
  const height = whole(showHeight(height_mm))
  if (layer === 0) return 'the very start, before the first layer'
  return spiral ? height : `layer ${layer} (${height})`
}

/** Why nothing is sure, where what is told of a reel does not agree. */
const doubtOf = ({ tools }: CheckJson, reel: string | null): string | undefined => {
  for (const { tool, used } of tools) {
    const names = used.filter(({ surprising }) => surprising).map(({ what }) => what)
    if (names.length > 0) return disagreement(reel ?? `T${tool}’s reel`, names)
  }
  return undefined
}

/** Whether a reel is close for this alone, that it may be empty: its chance takes it that it is not. */
const mayBeEmpty = ({ tools, confidence }: CheckJson): boolean =>
  tools.some(
    ({ chance, notices }) =>
      chance >= confidence && notices.some(({ code }) => code === 'net_may_be_nothing'),
  )

/** Why no reel is enough for a file, whatever it holds. */
const doubtOfFile: Readonly<Record<DrawDoubt, string>> = {
  maybe_cut_short: 'The file may not be the whole print, so no reel is called enough for it.',
  nothing_drawn:
    'What the print draws was not found in the file, so no reel is called enough for it.',
  e_looks_relative: 'How E counts in the file is not sure, so no reel is called enough for it.',
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** Words of the check sheet. */
export const checkWords = {
  question: 'Will a reel finish this print?',
  drop: 'Drop a print file here, or choose one.',
  dropHere: 'Drop a print file here',
  choose: 'Choose a print file',
  stays: 'It is read in this browser and does not leave it.',
  reading: (name: string): string => `Reading ${name}`,
  bytesOf: (read: number, of: number): string => `${megabytes(read)} of ${megabytes(of)} MB`,
  cancel: 'Cancel',
  notRead: (name: string): string => `${name} can not be read`,
  noReader:
    'The reader could not be fetched: the page is out of touch with the server. Try again when it is back.',
  chooseAnother: 'Choose another file',
  another: 'Another print',
  whichPrint: 'Which print of it?',
  noAnswer: 'There is no answer',
  again: 'Ask again',
  reckoning: 'Reckoning with every reel …',
  answerFirst:
    'What the print draws, and from which reels, hangs on the answer: the reels are judged once it is given.',
  lacksReels:
    'This print feeds from more tools than there are reels it could take: each tool needs one of its own.',
  addReel: 'Put another on the shelf',
  noReels: 'There is no reel on the shelf that this print could take.',
  leftOut: (count: number, diameter_mm: number): string =>
    `${count === 1 ? 'One reel' : `${people.format(count)} reels`} of another diameter than ${diameter_mm} mm ${count === 1 ? 'is' : 'are'} left out.`,
  whichMaterial: 'What is it to be made of?',
  listOf: 'List the reels of',
  material: 'Made of',
  ofMaterial: (name: string, reels: number): string => `${name} (${people.format(reels)})`,
  anyMaterial: 'any',
  materialOnSlate: 'Made of, as the slate has it',
  ifMaterial: (names: readonly string[]): string => `If ${names.join(' and ')} will do:`,
  unknownMaterial: 'an unknown material',
  answer: 'The answer',
  needs: 'needs',
  holds: 'holds',
  leaves: 'leaves',
  lacks: 'lacks',
  tool: (tool: number): string => `T${tool}`,
  titleLines: (
    bytes: number,
    sha256: string | null,
    layers: number,
  ): readonly (readonly [string, string])[] => [
    ...(sha256 === null ? [] : [['Print', sha256.slice(0, 8)] as const]),
    ['Layers', people.format(layers)],
    ['Size', `${megabytes(bytes)} MB`],
  ],
  sentence: (
    check: CheckJson,
    reel: string | null,
    unit: MassUnit,
    { spiral, inDoubt }: { readonly spiral: boolean; readonly inDoubt: DrawDoubt | undefined },
  ): string => {
    const who = reel === null ? 'The reels' : capital(reel)
    const { early, likely, late } = check.run_dry
    const left = whole(showMass(check.left_over_g, unit))
    // What can not be printed of a reel is missing as well.
    const missing = whole(showMass({ ...check.margin_g, value: 0 - check.margin_g.value }, unit))
    const tool = reel === null ? ` on T${check.tool}` : ''
    if (check.verdict === 'enough') {
      return reel === null ? `${who} finish it.` : `${who} finishes it; ${left} stay on it.`
    }
    if (check.verdict === 'close') {
      const doubt = doubtOf(check, reel) ?? (inDoubt && doubtOfFile[inDoubt])
      if (doubt !== undefined) return saidIn(doubt, unit)
      if (mayBeEmpty(check)) {
        return `${who} may be empty: the chance takes it that something is left. What the carrier weighs would tell.`
      }
      const where = early === null ? '' : ` It may run dry${tool} from ${place(early, spiral)} on.`
      const margin = `the margin${tool} is ${whole(showMass(check.margin_g, unit))}`
      return `${who} ${reel === null ? 'are' : 'is'} too close to call: ${margin}.${where}`
    }
    const likeliest = likely === null ? '' : ` It runs dry${tool} about ${place(likely, spiral)}`
    const between =
      early === null || late === null
        ? '.'
        : `, between ${place(early, spiral)} and ${place(late, spiral)}.`
    return `${who} ${reel === null ? 'are' : 'is'} ${missing} short.${likeliest}${likeliest === '' ? '' : between}`
  },
  /** @param mayEnd - the reel may end before the print does */
  printCaption: (mayEnd: boolean): string =>
    mayEnd ? 'the print, filled as far as the reel goes' : 'the print, to scale',
  reelCaption: (id: string): string => `Reel ${id}, cut open`,
  twoReels: 'Two reels do it with a change',
  upToLayer: (layer: number, height_mm: number): string =>
    `to layer ${layer} (${whole(`${height_mm.toFixed(1)} mm`)})`,
  fromLayer: (layer: number): string => `from layer ${layer} on`,
  planChange: 'The Slate plans it and writes the stop into a copy of the file.',
  reels: 'Reels of the shelf',
  reelsFor: (tool: number): string => `Reels for T${tool}`,
  counts: (enough: number, close: number, short: number): string =>
    `${enough} enough, ${close} close, ${short} short`,
  find: 'Find a reel',
  findHint: 'By words of its id, make, material, colour or place, among all that fit.',
  findCall: 'Shown',
  findCalls: { any: 'all', enough: 'enough', close: 'close', short: 'short' },
  found: (count: number, shown: number): string =>
    `${count === 0 ? 'No reel' : count === 1 ? 'One reel' : `${people.format(count)} reels`} of all that fit${count > shown ? `; the first ${shown} are shown` : ''}`,
  notListed: (listed: number): string =>
    `The first ${listed} are listed. Every other one is found by its words above.`,
  settles: (instruction: string, chance: number): string =>
    `${instruction} Settles it with a chance of ${whole(showChance(chance))}.`,
  disagrees: (reel: string, names: readonly string[]): string =>
    disagreement(`reel ${reel}`, names),
  runs: (file: string): string => `loaded: ${file} is running on it, and is not off its figure yet`,
  more: (count: number): string => (count === 1 ? 'One more reel' : `${count} more reels`),
  moreShort: (count: number): string =>
    count === 1 ? 'One more is short' : `${people.format(count)} more are short`,
  fullestShown: (shown: number): string =>
    `The fullest ${shown} are shown. Every other one is found by its words above.`,
  weigh: (reel: string): string => `Weigh reel ${reel}: what does the scale show?`,
  weighHint: 'As 422 g or 14.9 oz. The verdict follows; nothing is kept until you say so.',
  scale: 'Scale',
  keepWeighing: 'Keep this weighing',
  keptWeighing: (facts: readonly { readonly kind: string }[]): string =>
    facts.length === 0 ? '' : 'The weighing is written down.',
  carrierOf: (reel: string): string =>
    `What the scale shows with an empty carrier of the make of ${reel}`,
  keepMeasure: {
    empty_carrier: 'Keep this carrier',
    calipers: 'Keep these diameters',
    cut: 'Keep this cut length',
  },
  keptMeasure: 'The measurement is written down.',
  changing: 'Changing reels',
  noChange:
    'No layer end is safe for a change: not even the first is sure to be reached. Start with another reel.',
  changeThen: (
    layer: number,
    height_mm: number | null,
    spiral: boolean,
    best: { readonly reel: string; readonly chance: number } | null,
  ): string => {
    const height = height_mm === null ? '' : whole(showHeight(height_mm))
    const where = spiral
      ? `by ${height}`
      : `before layer ${people.format(layer + 1)}${height === '' ? '' : `, at ${height}`}`
    if (best === null)
      return `Change ${where} at the latest. No other reel of this material lasts for the rest.`
    return best.chance < 0.5
      ? `Change ${where} at the latest. No other reel of this material is likely to last for the rest; the nearest is ${best.reel}, with ${whole(showChance(best.chance))}.`
      : `Change ${where} at the latest, then on with ${best.reel}, which has ${whole(showChance(best.chance))} for the rest.`
  },
  working: 'What it rests on',
  quantity: 'Quantity',
  value: 'Value',
  rests: 'Rests on',
  row: { needs: 'the print needs', holds: 'the reel holds', margin: 'margin', tare: 'tare' },
  alongHeadings: ['Along the print', 'Layer', 'Height', 'Fed until then', 'When'],
  along: {
    early: 'dry at the earliest (a chance of 5 %)',
    likely: 'dry as likely before as after',
    late: 'dry by then (a chance of 95 %)',
    change: 'last safe change, at its end',
  },
  heightsHeadings: (byClock: boolean): readonly string[] => [
    byClock ? 'When' : 'After its start',
    'Height reached',
  ],
  alongNone: 'not within the print',
  marginIs: 'what is over when the tail that can not be printed is left out',
  on: (working: ReelWorkingJson | undefined, id: ReelWorkingJson['rests'][number]['id']): string =>
    working?.rests.find((one) => one.id === id)?.on ?? '',
} as const
