import {
  type DrawDoubt,
  drawDoubtIn,
  type Finding,
  type Layers,
  type PrintOfFile,
  type PrintTime,
  type ReadOptions,
} from '../print/index.ts'
import { drawOfPart, lengthOfStated, type StatedMass, toolsDrawn } from '../service/index.ts'
import { type Measured, type Millimetres, parseLength, parseMass } from '../units/index.ts'
import type { DrawAlternative } from '../verdict/index.ts'
import type { CheckText } from './check-text.ts'
import { chosenPrint } from './chosen-print.ts'
import { usageFault } from './fault.ts'
import { nominalFilament } from './nominal-mass.ts'
import { parseFileOptions } from './parse-file-options.ts'
import { type Input, readInput } from './read-input.ts'
import { taken } from './taken.ts'

/** A print as a check needs it, or the length or mass that stands in for one. */
export interface Drawn {
  /** Ascending; at least one. */
  readonly tools: readonly { readonly tool: number; readonly draw: readonly DrawAlternative[] }[]
  readonly layers?: Layers
  readonly findings: readonly Finding[]
  /** Where a file was read, and its times with it. */
  readonly time?: PrintTime
  /** Absent when a length or mass stands in. */
  readonly source?: { readonly input: Input; readonly print: PrintOfFile }
  /** How a stated mass was turned into length. */
  readonly stated?: StatedMass
  /** The part judged, where not the whole is. */
  readonly stretch?: number
  /** Of so many prints, where it is not of one. */
  readonly prints?: number
}

const fileDoubts: Readonly<Record<DrawDoubt, string>> = {
  maybe_cut_short: 'What is in the file may not be the whole print.',
  nothing_drawn: 'What the print draws was not found in the file.',
  e_looks_relative: 'How E counts in the file is not sure, and with it what the print draws.',
}

/** Why of a file nobody can say that a reel is enough for it, in a sentence; undefined where nothing is so. */
export const doubtOfFile = ({ findings }: Pick<Drawn, 'findings'>): string | undefined => {
  const doubt = drawDoubtIn(findings)
  return doubt && fileDoubts[doubt]
}

/**
 * What is to be printed: a file, or `--draw`, or `--mass`.
 *
 * @param onTheWay - what the reader is to draw or time of the file
 * @throws Fault of wrong usage, unreadable input, or cancelled
 */
export const whatIsDrawn = async (
  file: string | undefined,
  typed: CheckText,
  onTheWay: ReadOptions = {},
): Promise<Drawn> => {
  const { draw, mass } = typed
  const given = [file, draw, mass].filter((each) => each !== undefined)
  if (given.length !== 1) {
    throw usageFault(
      given.length === 0 ? 'nothing_to_check' : 'too_much_to_check',
      given.length === 0
        ? 'Say what is to be printed: a FILE, or --draw 62m, or --mass 185g.'
        : 'A FILE, --draw and --mass stand for the same thing: give one of them.',
    )
  }
  if (file !== undefined) return drawnOfFile(file, typed, onTheWay)
  const ofFile = [
    'stretch',
    'member',
    'firmware',
    'eUnit',
    'eMode',
    'madeFor',
    'picture',
    'start',
  ] as const
  for (const option of ofFile) {
    if (typed[option] === undefined) continue
    const name = `--${option.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`
    throw usageFault('needs_a_file', `${name} is about a file, and none is given.`, name)
  }
  return draw === undefined ? drawnOfMass(mass!, typed) : drawnOfLength(draw)
}

const single = (peak_mm: number): Drawn['tools'] => [{ tool: 0, draw: [{ weight: 1, peak_mm }] }]

const noSpread = ({ value, u }: Measured, option: string): number => {
  if (u === 0) return value
  throw usageFault(
    'no_uncertainty_here',
    `${option} takes one figure, without ±. Put a doubt about the printer into --feed-factor.`,
    option,
  )
}

const something = (amount: number, option: string): number => {
  if (amount > 0) return amount
  throw usageFault(
    'nothing_to_draw',
    `${option}: nothing is to be printed, so there is nothing to check. Write for example ${option === '--draw' ? '62m' : '185g'}.`,
    option,
  )
}

const drawnOfLength = (typed: string): Drawn => {
  const length: Measured<Millimetres> = taken(parseLength(typed, 'm'), '--draw')
  return { tools: single(something(noSpread(length, '--draw'), '--draw')), findings: [] }
}

/** A stated mass was computed from length by nominal figures, and goes back by the same. */
const drawnOfMass = (typed: string, { material, density, diameter }: CheckText): Drawn => {
  const mass_g = something(noSpread(taken(parseMass(typed), '--mass'), '--mass'), '--mass')
  const filament = nominalFilament({ material, density, diameter })
  if (filament === undefined) {
    throw usageFault(
      'density_missing',
      '--mass was computed with a density by whoever stated it: give --material or --density, and --diameter unless it is 1.75 mm.',
      '--mass',
    )
  }
  const stated = { mass_g, filament }
  return { tools: single(lengthOfStated(stated)), findings: [], stated }
}

const drawnOfFile = async (
  file: string,
  typed: CheckText,
  onTheWay: ReadOptions,
): Promise<Drawn> => {
  const stretch = parseStretch(typed.stretch)
  const input = await readInput(file, { ...parseFileOptions(typed), ...onTheWay })
  return drawnOfPrint(input, chosenPrint(input.print.prints, typed.member), stretch)
}

/**
 * What a print that was read draws.
 *
 * @param stretch - the part judged, where not the whole is
 * @throws Fault of wrong usage
 */
export const drawnOfPrint = (input: Input, print: PrintOfFile, stretch?: number): Drawn => {
  const { reading } = print
  const tools = toolsDrawn(reading, undefined)
  return {
    tools: stretch === undefined ? tools : taken(drawOfPart(reading, tools, stretch), '--stretch'),
    layers: reading.layers,
    findings: reading.findings,
    ...(reading.time && { time: reading.time }),
    source: { input, print },
    ...(stretch !== undefined && { stretch }),
  }
}

const parseStretch = (typed: string | undefined): number | undefined => {
  if (typed === undefined) return undefined
  if (/^[1-9]\d{0,3}$/.test(typed.trim())) return Number(typed)
  throw usageFault(
    'stretch_malformed',
    `--stretch: "${typed}" is no count. 1 is the part up to the first planned reel change.`,
    '--stretch',
  )
}
