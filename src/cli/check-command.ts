import type { CheckJson, ShelfCheckJson } from '../contract/index.ts'
import { unknownPace } from '../estimate/index.ts'
import type { PrintOfFile } from '../print/index.ts'
import { printerTold } from '../service/index.ts'
import { checkReport } from './check-report.ts'
import type { CheckText } from './check-text.ts'
import type { Checked, Checker } from './checker.ts'
import { drawnOnTheWay } from './drawing-of.ts'
import { usageFault } from './fault.ts'
import { filesAsked, noFolder } from './files-asked.ts'
import {
  exitOf,
  judgedToJson,
  judgeReels,
  parseConfidence,
  type ReelsJudged,
  toolsOf,
} from './judged.ts'
import { parsePrinter } from './parse-printer.ts'
import { drawnIn, pictureAsked, writePicture } from './picture.ts'
import { plainReelText, reelsOfTools } from './reels-of-tools.ts'
import { type Result, run } from './run.ts'
import type { Terminal } from './terminal.ts'
import { startTold } from './times-of.ts'
import { type Drawn, whatIsDrawn } from './what-is-drawn.ts'
import { noChoiceAmong, whichCheck } from './which-check.ts'

/** `reelreckon check`: will this reel finish this print? Or these prints, each by itself. */
export const checkCommand = (files: readonly string[], typed: CheckText): Promise<void> =>
  run(typed.json === true, async (terminal) => {
    const asked = await filesAsked(files, typed.subfolders === true)
    const checker = await checkerFor(files, typed)
    if (asked.many) {
      const { checkSeveral } = await import('./check-several.ts')
      return checkSeveral(terminal, asked.files, checker)
    }
    noFolder(typed)
    noneInTurn(typed)
    const picture = await pictureAsked(typed)
    const onTheWay = { ...(picture && drawnOnTheWay(picture.layer)), motion: checker.motion ?? {} }
    const drawn = await whatIsDrawn(files[0], checker.typed, onTheWay)
    const checked = checker.judge(drawn)
    if (picture) await writePicture(picture, printOf(drawn), ofOneReel(checked))
    const { text, exit } = await told(terminal, typed, checked)
    return { text: typed.json === true ? text : text + drawnIn(picture), exit }
  })

/** @throws Fault: of one print none comes after another */
const noneInTurn = ({ inTurn }: CheckText): void => {
  if (inTurn === undefined) return
  throw usageFault(
    'needs_several_prints',
    '--in-turn is about several prints, and one is given. Leave it out.',
    '--in-turn',
  )
}

const printOf = ({ source }: Drawn): { readonly file: string } & PrintOfFile => ({
  file: source!.input.file,
  ...source!.print,
})

/** @throws Fault where a picture would have to show every reel of a shelf */
const ofOneReel = (checked: Checked): ReelsJudged => {
  if (checked.kind === 'reels') return checked
  throw usageFault(
    'picture_needs_a_reel',
    '--picture shows how far one reel goes: name it with --reel, or tell what you know of it. The print alone is drawn by reelreckon read.',
    '--picture',
  )
}

const checkerFor = async (files: readonly string[], typed: CheckText): Promise<Checker> => {
  const which = whichCheck(typed)
  if (which === 'shelf') {
    const { shelfChecker } = await import('./check-over-shelf.ts')
    return shelfChecker(files, typed)
  }
  noChoiceAmong(typed)
  if (which === 'named') {
    const { namedChecker } = await import('./check-named-reels.ts')
    return namedChecker(files, typed)
  }
  return toldChecker(typed)
}

const toldChecker = (typed: CheckText): Checker => {
  if (typed.data !== undefined || typed.ledger !== undefined) throw needless(typed)
  const confidence = parseConfidence(typed.confidence)
  const printer = printerTold(parsePrinter(typed))
  const timing = { pace: unknownPace(), ...startTold(typed.start) }
  const plain = plainReelText(typed)
  return {
    typed,
    judge: (drawn) => {
      const reels = reelsOfTools(toolsOf(drawn), plain, typed.tool ?? [])
      return { kind: 'reels', ...judgeReels(drawn, reels, printer, confidence, timing) }
    },
  }
}

const asText = (answer: CheckJson | ShelfCheckJson): string =>
  `${JSON.stringify(answer, null, 2)}\n`

const told = async (
  terminal: Terminal,
  { json, all }: CheckText,
  checked: Checked,
): Promise<Result> => {
  const inJson = json === true
  if (checked.kind === 'shelf') {
    const { found } = checked
    const { shelfFoundToJson } = await import('./check-over-shelf.ts')
    const { shelfCheckReport } = await import('./shelf-check-report.ts')
    return {
      text: inJson
        ? asText(shelfFoundToJson(found, { all: all === true }))
        : shelfCheckReport(terminal, found, all === true),
      exit: exitOf[found.verdict],
    }
  }
  const { whole, tools, drawn, printer, times, ofShelf } = checked
  return {
    text: inJson
      ? asText(judgedToJson(checked))
      : checkReport(terminal, whole, tools, drawn, printer, times, ofShelf),
    exit: exitOf[whole.verdict],
  }
}

const needless = ({ data }: CheckText): Error => {
  const option = data === undefined ? '--ledger' : '--data'
  return usageFault(
    'needs_the_shelf',
    `${option} says where the ledger is, and nothing here asks it: name a reel of it with --reel or a printer with --printer, or tell nothing of a reel to ask for all of them.`,
    option,
  )
}
