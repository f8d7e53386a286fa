/**
 * The slow twin of the reader: the rules of docs/method/draw.md once more, written to be compared
 * with that page rather than to be fast. The whole file becomes a string, loops are written out,
 * every line is taken apart by regular expressions and run through one family after another.
 *
 * Steps are lines in the order in which they are run. The reference family is run first: it finds
 * the layers, and the steps on which layers open are the places where the others are asked for
 * their draw.
 */
import {
  type FirmwareFamily,
  type FirmwareFamilyId,
  firmwareFamilies,
  type ReadOptions,
} from '../../src/print/index.ts'
import { findFindings, isKnownName } from './twin-findings.ts'
import { type LaidStroke, LayerFinder } from './twin-layers.ts'
import {
  type Command,
  firstCommand,
  isListed,
  isProbing,
  readLine,
  readNamed,
} from './twin-line.ts'
import { type Step, writeOutLoops } from './twin-loops.ts'
import { Machine, Unreadable } from './twin-machine.ts'
import type { TwinRefusal, TwinResult, TwinStop, TwinTool } from './twin-result.ts'
import { type Line, readText } from './twin-text.ts'

export type { TwinReading, TwinResult, TwinTool } from './twin-result.ts'

export const lineBudget: number = 64 * 1024
export const layerBudget = 200_000
export const stopBudget = 10_000

type Draw = ReadonlyMap<number, number>

interface Run {
  readonly net: Draw
  readonly peak: Draw
  /** Draw before the first layer, then at the end of each. */
  readonly snapshots: readonly Draw[]
}

interface ReferenceRun extends Run {
  readonly finder: LayerFinder
  readonly stops: readonly TwinStop[]
  /** Ways on which the print proper is laid. */
  readonly strokes: readonly LaidStroke[]
}

interface Failure extends TwinRefusal {
  readonly step: number
}

/** A line that cannot be taken at all, whatever the family. */
const checkLine = ({ text }: Line): void => {
  if (text.includes('\0')) throw new Unreadable('nul_byte')
  if (text.replace(/;.*$/s, '').length <= lineBudget) return
  const command = firstCommand(text)
  const named = readNamed(text)
  if ((command && isListed(command)) || (named && isKnownName(named.name))) {
    throw new Unreadable('line_too_long')
  }
}

/** Run every step; what stops it is returned with the step's number. */
const runSteps = (
  steps: readonly Step[],
  each: (line: Line, at: number) => void,
): Failure | undefined => {
  for (const [at, step] of steps.entries()) {
    if (step.kind === 'refusal') return { ok: false, code: step.code, line: step.line, step: at }
    try {
      checkLine(step.line)
      each(step.line, at)
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error
      return { ok: false, code: error.code, line: step.line.number, step: at }
    }
  }
  return undefined
}

const stopKind = (name: string): TwinStop['kind'] | undefined => {
  if (name === 'M600') return 'change'
  if (['M0', 'M1', 'M25', 'M226', 'M601', 'PAUSE'].includes(name)) return 'pause'
  if (['M2', 'M30', 'CANCEL_PRINT'].includes(name)) return 'end'
  return undefined
}

const tellFinder = (finder: LayerFinder, { name, words }: Command): void => {
  if (['G28', 'M109', 'M190', 'M191', 'M116'].includes(name) || isProbing(name)) finder.heatOrHome()
  else if (name === 'M82' || name === 'M83') finder.prepare()
  else if (name === 'G92' && words.get('E')?.values[0] !== undefined) finder.prepare()
}

const runReference = (
  steps: readonly Step[],
  family: FirmwareFamily,
  options: ReadOptions,
): ReferenceRun | Failure => {
  const machine = new Machine(family, options)
  const finder = new LayerFinder()
  const stops: (TwinStop & { readonly forgotten: number })[] = []
  let now = 0
  let strokes: LaidStroke[] = []
  let timesForgotten = 0
  machine.onMove = (motion) => {
    finder.move(motion, now, () => new Map(machine.peak))
    if (finder.forgotten > timesForgotten) strokes = []
    timesForgotten = finder.forgotten
    const { feed_mm, travels, arc, stroke } = motion
    if (feed_mm > 0 && (travels || arc)) {
      strokes.push({ ...stroke, layer: finder.layers.length })
    }
  }

  const noteStop = (name: string, line: number): void => {
    const kind = stopKind(name)
    if (!kind || stops.length === stopBudget) return
    const { forgotten, layers } = finder
    stops.push({ kind, line, layer: layers.length, draw_mm: new Map(machine.peak), forgotten })
  }
  const failure = runSteps(steps, (line, at) => {
    now = at
    const named = readNamed(line.text)
    if (named) {
      machine.runNamed(named.name, named.values)
      noteStop(named.name, line.number)
    }
    for (const command of readLine(line.text, family)) {
      tellFinder(finder, command)
      machine.run(command)
      noteStop(command.name, line.number)
    }
    if (finder.layers.length > layerBudget) throw new Unreadable('too_many_layers')
  })
  if (failure) return failure
  return {
    net: machine.net,
    peak: machine.peak,
    snapshots: [...finder.layers.map((layer) => layer.drawBefore), machine.peak],
    finder,
    strokes: finder.forgotten > timesForgotten ? [] : strokes,
    stops: stops.map(({ kind, line, layer, draw_mm, forgotten }) => ({
      kind,
      line,
      layer: forgotten === finder.forgotten ? layer : 0,
      draw_mm,
    })),
  }
}

const runOther = (
  steps: readonly Step[],
  family: FirmwareFamily,
  options: ReadOptions,
  openings: readonly number[],
): Run | Failure => {
  const machine = new Machine(family, options)
  const snapshots: Draw[] = []
  const failure = runSteps(steps, (line, at) => {
    while (openings[snapshots.length] === at) snapshots.push(new Map(machine.peak))
    const named = readNamed(line.text)
    if (named) machine.runNamed(named.name, named.values)
    for (const command of readLine(line.text, family)) machine.run(command)
  })
  if (failure) return failure
  return { net: machine.net, peak: machine.peak, snapshots: [...snapshots, machine.peak] }
}

const toolsOf = ({ net, peak, snapshots }: Run): ReadonlyMap<number, TwinTool> => {
  // A tool whose feeds cancel to nothing, and never stood above nothing, is no tool of the print.
  const tools = [...net.keys()]
    .filter((tool) => net.get(tool) !== 0 || peak.get(tool) !== 0)
    .toSorted((a, b) => a - b)
  return new Map(
    tools.map((tool) => [
      tool,
      {
        net_mm: net.get(tool)!,
        peak_mm: peak.get(tool)!,
        startMacro_mm: snapshots[0]!.get(tool) ?? 0,
        layerEnd_mm: snapshots.slice(1).map((draw) => draw.get(tool) ?? 0),
      },
    ]),
  )
}

const familyNamed = (id: FirmwareFamilyId): FirmwareFamily =>
  firmwareFamilies.find((family) => family.id === id)!

/** Does `meta` draw something else when an E behind a digit is always a word? */
const denseMatters = (steps: readonly Step[], options: ReadOptions, run: Run): boolean => {
  const plain = { ...familyNamed('meta'), exponents: false }
  const other = runOther(steps, plain, options, [])
  if ('step' in other) return true
  const tools = new Set([...run.peak.keys(), ...other.peak.keys()])
  return [...tools].some(
    (tool) => Math.abs((run.peak.get(tool) ?? 0) - (other.peak.get(tool) ?? 0)) > 1e-9,
  )
}

/** The ways on which the print proper is laid, in order; nothing for a program that is refused. */
export const twinStrokes = (
  bytes: Uint8Array,
  options: ReadOptions = {},
): readonly LaidStroke[] => {
  const program = readText(bytes)
  if ('ok' in program) return []
  const family = familyNamed(options.firmware ?? 'community')
  const run = runReference(writeOutLoops(program.lines), family, options)
  return 'step' in run ? [] : run.strokes
}

export const twinRead = (bytes: Uint8Array, options: ReadOptions = {}): TwinResult => {
  const program = readText(bytes)
  if ('ok' in program) return program
  const steps = writeOutLoops(program.lines)

  const reference = familyNamed(options.firmware ?? 'community')
  const others = options.firmware ? [] : firmwareFamilies.filter(({ id }) => id !== reference.id)
  const first = runReference(steps, reference, options)
  const openings = 'step' in first ? [] : first.finder.layers.map((layer) => layer.opensAt)
  const rest = others.map((family) => runOther(steps, family, options, openings))

  // Whatever family stumbles first stops the reading.
  const runs: Run[] = []
  let earliest: Failure | undefined
  for (const run of [first, ...rest]) {
    if (!('step' in run)) runs.push(run)
    else if (!earliest || run.step < earliest.step) earliest = run
  }
  if (earliest || 'step' in first) {
    const { code, line } = earliest ?? { code: 'none', line: undefined }
    return line === undefined ? { ok: false, code } : { ok: false, code, line }
  }
  if (!program.lines.some((line) => firstCommand(line.text) !== undefined)) {
    return { ok: false, code: 'no_machine_code' }
  }

  const { finder, stops } = first
  const families = [reference, ...others].map(({ id }) => id)
  const byFamily = new Map(families.map((id, at) => [id, { tools: toolsOf(runs[at]!) }] as const))
  const findingCodes = findFindings(program, families, options)
  const meta = runs[families.indexOf('meta')]
  if (meta && denseMatters(steps, options, meta)) findingCodes.add('dense_e')
  return {
    ok: true,
    byFamily,
    layers: {
      heights: finder.layers.map((layer) => layer.height),
      passes: finder.passes,
      spiral: finder.layers.length > 0 && finder.spiral,
    },
    stops,
    findingCodes,
    lines: program.lines.length,
  }
}
