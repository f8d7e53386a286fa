import { type Assumption, linearDensityOf, tareOf } from '../estimate/index.ts'
import {
  findingToJson,
  type PrinterJudged,
  type PrintTimes,
  plannedChanges,
  weakest,
} from '../service/index.ts'
import { formatMeasured, grams, measured } from '../units/index.ts'
import type { Printer, PrintVerdict } from '../verdict/index.ts'
import { answerSentences, changeSentences, lasts } from './check-sentences.ts'
import { questions, remarks } from './findings-report.ts'
import { printSentences } from './print-sentences.ts'
import { restsOn } from './rests-on.ts'
import { ring } from './ring.ts'
import { sayChance, sayLength, sayLinearDensity, sayMass, sayMeasuredLength, upTo } from './say.ts'
import { type Bar, type Mark, scaleDrawing } from './scale-drawing.ts'
import { settling } from './settling.ts'
import { row } from './sheet-row.ts'
import { standInLines, standInOf } from './stand-in-lines.ts'
import { harmless, paint, type Terminal } from './terminal.ts'
import { timeSentences } from './time-sentences.ts'
import type { ToolFound } from './tool-found.ts'
import { type Drawn, doubtOfFile } from './what-is-drawn.ts'
import { sheetWidth, wrap } from './wrap.ts'

const titleWidth = sheetWidth - 7

/** What makes all figures doubtful is said before them. */
const isDoubt = ({ code }: { readonly code: string }): boolean =>
  code === 'surprising' || code === 'contradicted'

/** What may spoil the print, whatever the reel holds, is said as early. */
const spoilsPrint: ReadonlySet<string> = new Set([
  'maybe_cut_short',
  'made_for_other_diameter',
  'nothing_drawn',
])

/** The answer as a sheet of text: the call, what settles it, one scale drawing, the working. */
export const checkReport = (
  terminal: Terminal,
  whole: PrintVerdict,
  tools: readonly ToolFound[],
  drawn: Drawn,
  printer: Printer,
  times?: PrintTimes,
  ofShelf: PrinterJudged = {},
): string => {
  const deciding = weakest(tools)
  const several = tools.length > 1
  const findings = drawn.findings.map(findingToJson)
  const asked = questions(findings)
  const noted = remarks(findings.filter(({ code }) => !spoilsPrint.has(code)))
  const [first = '', ...more] = several
    ? printSentences(whole, tools, drawn.layers)
    : answerSentences(deciding.verdict, drawn.layers, whoOf(deciding))
  const told = tools.flatMap(({ tool, belief }) =>
    belief.notices.map(({ code, message }) => ({
      code,
      message: several ? `T${tool}: ${message}` : message,
    })),
  )
  const spoilt = findings.filter(({ code }) => spoilsPrint.has(code))
  const doubts = [...spoilt, ...told.filter(isDoubt)]
  const inDoubt = told.some(isDoubt) || doubtOfFile(drawn) !== undefined
  const notices = told.filter((notice) => !isDoubt(notice))
  return [
    ...head(terminal, whole, titleOf(drawn), doubtOfFile(drawn) ?? first, inDoubt),
    ...(doubts.length > 0 ? ['', ...doubts.map(({ message }) => wrap(message, '  !  '))] : []),
    ...(several ? ['', ...tools.map((each) => toolLine(terminal, each))] : []),
    ...(asked.length > 0 ? ['', ...asked] : []),
    ...paragraph([...more, ...changeSentences(deciding.verdict, drawn.layers)]),
    ...(times === undefined
      ? []
      : paragraph(timeSentences(deciding.verdict, times, drawn.layers, Date.now()))),
    // Of a file in doubt no fuller reel settles anything.
    ...(doubtOfFile(drawn) === undefined ? settling(terminal, whole, tools) : []),
    '',
    ...(deciding.verdict.contradicting.length > 0
      ? []
      : [...drawing(deciding, several, printer), '']),
    ...tools.flatMap((each) => working(terminal, each, several, printer)),
    ...standInLines([standInOf(ofShelf)]),
    ...(notices.length > 0 ? ['', ...notices.map(({ message }) => wrap(message, '  !  '))] : []),
    '',
    ...assumptions(terminal, tools),
    ...(noted.length > 0 ? ['', paint(terminal, 'strong', '  In the file'), ...noted] : []),
    '',
  ].join('\n')
}

const whoOf = ({ onShelf }: ToolFound): string =>
  onShelf === undefined ? 'The reel' : `Reel ${onShelf.card.id}`

/** Sentences, each on a line of its own, after an empty one. */
const paragraph = (sentences: readonly string[]): readonly string[] =>
  sentences.length === 0 ? [] : ['', ...sentences.map((each) => wrap(each, '  ', '  '))]

/** What is to be printed, in a line. */
export const titleOf = ({ source, stated, stretch, tools }: Drawn): string => {
  if (stated) {
    const { mass_g, filament } = stated
    const draw = sayLength(tools[0]?.draw[0]?.peak_mm ?? 0)
    return `${upTo(mass_g, 2)} g, which is ${draw} of ${upTo(filament.diameter.value, 3)} mm (${filament.name})`
  }
  if (source === undefined) return `${sayLength(tools[0]?.draw[0]?.peak_mm ?? 0)} of filament`
  const { input, print } = source
  const name = print.name === null ? input.file : `${input.file}, ${print.name}`
  const parts = plannedChanges(print.reading.stops).length + 1
  return harmless(name) + (stretch === undefined ? '' : `, part ${stretch} of ${parts}`)
}

/** The ring, the word and the chance, with the title and the first sentence. */
export const head = (
  terminal: Terminal,
  { verdict, chance }: Pick<PrintVerdict, 'verdict' | 'chance'>,
  title: string,
  sentence: string,
  inDoubt: boolean,
): readonly string[] => {
  const [top, middle, bottom] = ring[verdict]
  const word = paint(terminal, verdict, verdict.toUpperCase())
  const odds =
    inDoubt && verdict === 'close' ? 'no chance to be told' : `chance ${sayChance(chance)}`
  const mark = (line: string): string => paint(terminal, verdict, line)
  // The ring is three lines high, so a long title is cut at its front.
  const name = title.length > titleWidth ? `…${title.slice(1 - titleWidth)}` : title
  return [
    '',
    `  ${mark(top)}  ${name}`,
    `  ${mark(middle)}  ${word}, ${odds}`,
    `  ${mark(bottom)}  ${wrap(sentence, '', ' '.repeat(7), sheetWidth - 7)}`,
  ]
}

const toolLine = (terminal: Terminal, { tool, verdict }: ToolFound): string =>
  `  T${String(tool).padEnd(3)} ${paint(terminal, verdict.verdict, verdict.verdict.padEnd(7))} ${sayChance(verdict.chance).padStart(8)}`

/** Reel against print, of one tool: two reels on one scale would hide the smaller. */
const drawing = (
  { tool, verdict }: ToolFound,
  several: boolean,
  { feedFactor, startAllowance_mm: start }: Printer,
): readonly string[] => {
  const prefix = several ? `T${tool} ` : ''
  const bars: readonly Bar[] = [
    { label: `${prefix}reel`, grams: verdict.net, figure: sayMass(verdict.net) },
    { label: `${prefix}print`, grams: verdict.needed, figure: sayMass(verdict.needed) },
  ]
  const { early, likely, late } = verdict.runDry
  if (early === null || verdict.verdict === 'enough') return scaleDrawing(bars, [])
  const fed = (draw_mm: number): number => feedFactor.value * draw_mm + start.value
  const perMillimetre = verdict.needed.value / fed(verdict.neededDraw_mm.value)
  const gramsAt = (draw_mm: number): number => fed(draw_mm) * perMillimetre
  const mark: Mark = {
    label: several ? `${prefix}dry` : 'runs dry',
    early: gramsAt(early.draw_mm),
    likely: likely && gramsAt(likely.draw_mm),
    late: late && gramsAt(late.draw_mm),
    end: verdict.needed.value,
  }
  return scaleDrawing(bars, [mark])
}

const working = (
  terminal: Terminal,
  { tool, verdict, belief, onShelf }: ToolFound,
  several: boolean,
  { tail_mm: tail }: Printer,
): readonly string[] => {
  const perMetre = linearDensityOf(belief)
  const length = verdict.neededDraw_mm
  const asked = length.u > 0 ? sayMeasuredLength(length) : sayLength(length.value)
  const tare = tareOf(belief)
  const weighed = belief.used.some(({ id }) => id.startsWith('weighing'))
  const last = measured(
    grams((tail.value / 1000) * perMetre.value),
    Math.hypot(tail.u * perMetre.value, tail.value * perMetre.u) / 1000,
  )
  const available = lasts(verdict)
  if (verdict.contradicting.length > 0) {
    return [
      paint(terminal, 'strong', several ? `  T${tool}` : '  The working'),
      row('print', asked, 'asked for'),
      wrap(
        'Of the reel no figure is given: what comes of facts that do not agree is true of none.',
        '  ',
        '  ',
      ),
      ...(onShelf === undefined ? [] : restsOn(terminal, onShelf)),
    ]
  }
  return [
    paint(terminal, 'strong', several ? `  T${tool}` : '  The working'),
    row('reel', sayMass(verdict.net), weighed ? `with a tare of ${sayMass(tare)}` : ''),
    row('print', sayMass(verdict.needed), `${asked} asked for`),
    row('tail', sayMass(last), `${sayMeasuredLength(tail)} that can not be printed`),
    row('margin', sayMass(verdict.margin), 'reel less print less tail'),
    ...(available === undefined ? [] : [row('lasts for', available, 'of what a file asks for')]),
    ...(onShelf === undefined ? [row('per metre', sayLinearDensity(perMetre), '')] : []),
    ...verdict.alternatives.map((each) =>
      wrap(
        `under ${each.label ?? 'another firmware'}: ${sayLength(each.neededDraw_mm)}, ${each.verdict}, chance ${sayChance(each.chance)}`,
        '  ',
        '    ',
      ),
    ),
    ...(onShelf === undefined ? [] : restsOn(terminal, onShelf)),
  ]
}

const printerIds: ReadonlySet<string> = new Set(['feed_factor', 'start_allowance', 'tail'])

/** What a person is told of how a figure came to be. */
const onWhoseWord: Readonly<Record<Assumption['source']['standing'], string>> = {
  read: 'as published',
  'read second-hand': 'as published',
  'from memory': 'as remembered, not looked up',
  'common practice, no source': 'common practice',
}

/** What stands in for what nobody told, under the word it rests on. */
const assumptions = (terminal: Terminal, tools: readonly ToolFound[]): readonly string[] => {
  const byStanding = new Map<string, Set<string>>()
  for (const { tool, assumed } of tools) {
    for (const { id, what, value, u, unit, source } of assumed) {
      const figure = formatMeasured(measured(value, u), unit === '1' ? '' : unit).trim()
      const heading = onWhoseWord[source.standing]
      const about = tools.length > 1 && !printerIds.has(id) ? `T${tool}: ${what}` : what
      const lines = byStanding.get(heading) ?? new Set()
      byStanding.set(heading, lines.add(wrap(about, `  ${figure.padEnd(19)}  `)))
    }
  }
  const sheet: string[] = []
  for (const [standing, lines] of byStanding) {
    sheet.push(paint(terminal, 'strong', `  Assumed, as nobody told: ${standing}`), ...lines)
  }
  return sheet
}
