import type { RemedyJson, WaitingRowJson } from '../contract/index.ts'
import { newReelWork } from '../estimate/index.ts'
import {
  enoughOnNew,
  type MatchPlan,
  type MissingFilament,
  type Remedy,
  remediesFor,
} from '../match/index.ts'
import { capitalised, formatChance, formatCount, grams } from '../units/index.ts'
import { andList } from './and-list.ts'
import { lockedTo, toolsOf, wantsOf } from './asked-of-tool.ts'
import { rowName, rowsOf } from './find-row.ts'
import type { MatchQuestion } from './match-question.ts'
import { materialName } from './material-name.ts'
import { usualDiameter_mm } from './reel-card.ts'
import type { ShelfView } from './shelf-view.ts'
import { isSameDiameter } from './usual-diameter-of.ts'
import { wantedWords } from './wanted-words.ts'

/** For so many prints others are moved to make room; for more it is only tried whether there is room. */
const mostMoved = 10

/**
 * What would serve copies that are not served, the cheapest first: letting go of a wish, a planned change,
 * another colour, a measurement, more filament. What is found does not hang on how fast it is found.
 *
 * @param isCancelled - whether the person has had enough: then nothing is tried
 */
export const remediesOf = (
  view: ShelfView,
  question: MatchQuestion,
  plan: MatchPlan,
  isCancelled: () => boolean,
): ReadonlyMap<string, readonly RemedyJson[]> => {
  const { slate, copies } = question
  const found = new Map<string, readonly RemedyJson[]>()
  const asked = new Map<string, readonly RemedyJson[]>()
  for (const { copy: id, missing } of plan.unserved) {
    const { row } = copies.get(id)!
    // Copies of one print lack the same, where the same is wished of them.
    const alike = JSON.stringify([
      row.id,
      slate.locks?.flatMap(({ copy, tool, reel }) => (copy === id ? [[tool, reel]] : [])),
      slate.barred?.flatMap(({ copy, reel }) => (copy === id ? [reel] : [])),
    ])
    const print = [...copies.values()].flatMap((each) => (each.row.id === row.id ? [each.id] : []))
    const rounds = asked.size < mostMoved ? undefined : 0
    const isTried = !isCancelled()
    const known = asked.get(alike)
    const says =
      known ??
      wordsOf(view, question, {
        id,
        row,
        lacking: plan.unserved.filter((each) => print.includes(each.copy)).length,
        isContested: plan.unserved.some(({ copy }) => {
          const { row: other } = copies.get(copy)!
          const isAsImportant = (other.importance ?? 0) >= (row.importance ?? 0)
          return other.id !== row.id && isAsImportant && mayTakeTheSame(question, row, other)
        }),
        missing,
        isTried,
        remedies: isTried
          ? remediesFor(slate, plan, id, { print, ...(rounds !== undefined && { rounds }) })
          : [],
      })
    asked.set(alike, says)
    found.set(id, says)
  }
  return found
}

/** A copy that is not served, and what was found for it. */
interface Lacking {
  readonly id: string
  readonly row: WaitingRowJson
  /** How many copies of its print are not served. */
  readonly lacking: number
  /** Whether others as important are not served either: what is got for it they may take. */
  readonly isContested: boolean
  readonly missing: readonly MissingFilament[]
  readonly isTried: boolean
  readonly remedies: readonly Remedy[]
}

const wordsOf = (
  view: ShelfView,
  question: MatchQuestion,
  lacking: Lacking,
): readonly RemedyJson[] => {
  const said = [
    ...lacking.remedies.map((remedy) => inWords(view, question, lacking, remedy)),
    ...toGet(view, question, lacking),
    ...(lacking.isTried ? [] : [plain('What else would do was not tried.')]),
  ]
  return [...new Map(said.map((each) => [each.words, each])).values()]
}

const plain = (words: string): RemedyJson => ({ words, command: null })

const inWords = (
  view: ShelfView,
  question: MatchQuestion,
  lacking: Lacking,
  remedy: Remedy,
): RemedyJson => {
  const { row } = lacking
  const several = (row.tools ?? []).length > 1 || toolsOf(question, lacking.id).length > 1
  if (remedy.kind === 'let_go') {
    return plain(
      `${freedWords(question, lacking, remedy)}: ${serves('reels that are there', lacking, remedy)}.`,
    )
  }
  if (remedy.kind === 'change') {
    const { most } = remedy
    const changes = most === 1 ? 'a change' : `${most} changes`
    return {
      words: `Allow ${changes} of reels in mid-print: ${serves('reels that are there', lacking, remedy)}.`,
      command: `slate change ${row.id} --changes ${most}${layersTold(row)}`,
    }
  }
  if (remedy.kind === 'any_colour') {
    const reels = remedy.reels.map(({ tool, reel }) => (several ? `${reel} for T${tool}` : reel))
    const isOnly = remedy.reels.some(({ tool }) => wantsOf(row, tool).reel !== undefined)
    const does = serves(andList(reels), lacking, remedy, remedy.reels.length === 1)
    return {
      words: isOnly ? `Let other reels feed it as well: ${does}.` : `In another colour ${does}.`,
      command: takesCommand(view, question, lacking, remedy.reels),
    }
  }
  if (remedy.kind === 'measure') {
    const { reels, chance } = remedy
    const [they, hold, do_] = reels.length > 1 ? ['they', 'hold', 'do'] : ['it', 'holds', 'does']
    return plain(
      `Weigh ${andList(reels)}: that may show that ${they} ${hold} enough. By what is known ${they} ${do_} with ${formatChance(chance)}.`,
    )
  }
  return plain(`With ${remedy.reel} it is served.`)
}

/** `reels that are there then do it`, as far as that is sure. */
const serves = (
  who: string,
  { lacking }: Lacking,
  { more, sure }: { readonly more: number; readonly sure: boolean },
  isOne = false,
): string => {
  const what = more >= lacking ? 'it' : `${more} of its ${formatCount(lacking, 'copy', 'copies')}`
  const does = `${who} then ${isOne ? 'does' : 'do'} ${what}`
  return sure ? does : `${does}, or another print as important that lacks a reel`
}

const freedWords = (
  question: MatchQuestion,
  { row }: Lacking,
  { locks, bars }: Remedy & { readonly kind: 'let_go' },
): string => {
  const unlocked = locks.map(({ copy, tool, reel }) => {
    const other = question.copies.get(copy)!.row
    const name = other.id === row.id ? 'it' : other.name
    const at = toolsOf(question, copy).length > 1 ? ` at T${tool}` : ''
    return `no longer lock ${name}${at} to ${reel}`
  })
  const allowed = bars.map(({ reel, copy }) => {
    const other = copy === undefined ? null : question.copies.get(copy)!.row
    return `${reel}${other === null || other.id === row.id ? '' : ` for ${other.name}`}`
  })
  const forbidden = [...new Set(allowed)]
  return capitalised(
    andList([
      ...new Set(unlocked),
      ...(forbidden.length === 0 ? [] : [`no longer forbid ${andList(forbidden)}`]),
    ]),
  )
}

/** Whether a reel that is got for one print may help another, by itself or over a third that takes any material. */
const mayTakeTheSame = (
  { copies }: MatchQuestion,
  row: WaitingRowJson,
  other: WaitingRowJson,
): boolean => {
  const all = [...copies.values()]
  const of = (each: WaitingRowJson): readonly (string | undefined)[] =>
    all
      .find(({ row: its }) => its.id === each.id)!
      .print.tools.map((tool) => wantsOf(each, tool).material)
  return (
    all.some((each) => of(each.row).includes(undefined)) ||
    of(row).some((material) => of(other).includes(material))
  )
}

const layersTold = ({ changes }: WaitingRowJson): string =>
  changes?.after_layers === undefined
    ? ''
    : ` --change-after '${changes.after_layers.map(([from, to]) => (from === to ? from : `${from}-${to}`)).join(', ')}'`

/** How the print is told to take these reels as well; null where the command line has no words for all that it wants. */
const takesCommand = (
  view: ShelfView,
  question: MatchQuestion,
  { id, row }: Lacking,
  reels: readonly { readonly tool: number; readonly reel: string }[],
): string | null => {
  const told = toolsOf(question, id).map((tool): string | null => {
    const { material, colours, diameter_mm, reel: only } = wantsOf(row, tool)
    if (diameter_mm !== undefined) return null
    const more = reels.filter((each) => each.tool === tool)
    const parts = material === undefined ? [] : [`material=${materialName(view.rows, material)}`]
    if (only !== undefined) {
      // What it wanted stays: any that fits may feed it then.
      if (more.length === 0) parts.push(`reel=${only}`)
      else if (colours !== undefined) parts.push(`colour=${colours.join(' or ')}`)
    } else if (colours !== undefined) {
      const names = more.map(({ reel }) => view.cards.get(reel)?.colour?.name)
      // A reel of no colour is taken where any will do.
      if (!names.includes(undefined)) {
        parts.push(`colour=${[...new Set([...colours, ...names])].join(' or ')}`)
      }
    }
    if (parts.some((part) => part.includes("'"))) return null
    // A tool that wants nothing is not told of.
    return parts.length === 0 ? '' : ` --tool 'T${tool}: ${parts.join(', ')}'`
  })
  if (told.includes(null)) return null
  return `slate change ${row.id}${told.join('') || ' --forget tools'}`
}

/** More filament: nothing stands in its way but a wish, and that is then let go. */
const toGet = (
  view: ShelfView,
  question: MatchQuestion,
  { id, row, lacking, isContested, missing, remedies }: Lacking,
): readonly RemedyJson[] => {
  const isFreed = remedies.some(({ kind }) => kind === 'let_go')
  const isMoved = remedies.some(({ kind }) => kind === 'any_colour')
  const several = toolsOf(question, id).length > 1
  // Each tool has a reel, only together they have none: one reel more is enough.
  const isEither = missing.every(({ short_g }) => short_g === 0)
  const each = missing.flatMap((lack) => {
    const { tool } = lack
    const wants = wantsOf(row, tool)
    const lock = lockedTo(question, id, tool)
    if ((lock !== undefined && isFreed) || (wants.reel !== undefined && isMoved)) return []
    const { reel: only, ...filament } = wants
    const kind = `a new reel of ${wantedWords(view.rows, filament)}${several ? ` for T${tool}` : ''}`
    return [{ tool, lock, only, kind, enough: enoughOf(view, question, id, lack) }]
  })
  if (each.length === 0 || (each.length < missing.length && !isEither)) return []
  const wordsFor = (parts: typeof each): RemedyJson => {
    const freed = parts.flatMap(({ lock, tool }) =>
      lock === undefined ? [] : [`no longer lock it${several ? ` at T${tool}` : ''} to ${lock}`],
    )
    const enough = parts.flatMap((part) => part.enough ?? [])
    const what = andList([...freed, `get ${andList(parts.map(({ kind }) => kind))}`])
    const feeds = parts.some(({ only }) => only !== undefined)
      ? ', and let that feed it as well'
      : ''
    const does =
      enough.length < parts.length
        ? ''
        : `: ${andList(enough)} are enough${lacking > 1 ? ' for one copy' : ''}${isContested ? ', if no other print takes it' : ''}`
    return plain(`${capitalised(what)}${feeds}${does}.`)
  }
  return isEither ? each.map((part) => wordsFor([part])) : [wordsFor(each)]
}

/** How much of a make a new reel has to hold by its label to do a tool by itself; null where no make is known. */
const enoughOf = (
  view: ShelfView,
  { slate, copies, printers }: MatchQuestion,
  id: string,
  { tool, nearest }: MissingFilament,
): string | null => {
  const { material, diameter_mm = usualDiameter_mm } = wantsOf(copies.get(id)!.row, tool)
  const like = view.cards.get(nearest ?? '')?.opened.make
  const makes = rowsOf(view.rows, 'make').filter(
    (each) =>
      view.estimate.book.makeAt.has(each.id) &&
      (material === undefined || each.material === material) &&
      isSameDiameter(each.nominal_diameter_mm ?? usualDiameter_mm, diameter_mm),
  )
  // As the reel that comes nearest, where one does.
  const make = makes.find((each) => each.id === like) ?? makes[0]
  if (make === undefined) return null
  const label = enoughOnNew(slate, id, tool, (label_g) =>
    newReelWork(view.estimate, make.id, grams(label_g), [...printers.keys()]),
  )
  return label === null ? null : `${label} g of ${rowName(make)}`
}
