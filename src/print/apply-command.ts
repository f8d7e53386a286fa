import { type FeedState, type ToolColumn, toolColumn, toolNumbers } from './feed-state.ts'
import type { FirmwareFamily } from './firmware-family.ts'
import type { Command, Word } from './lex-line.ts'
import { toPicometres } from './picometres.ts'

/** How the reader was told to take E; `code` believes the file's M200. */
export type EUnit = 'code' | 'mm' | 'mm3'

/**
 * Does to a feed state what a command other than a move does to it under one family: E mode, G92,
 * units, tool, flow, mm³ mode, firmware retraction, kept states. Commands that touch none of these
 * do nothing.
 *
 * @see docs/method/draw.md, sections 3 to 5
 */
export function applyCommand(
  state: FeedState,
  family: FirmwareFamily,
  command: Command,
  eUnit: EUnit,
): void {
  switch (command.letter) {
    case 'G':
      applyG(state, family, command)
      break
    case 'M':
      applyM(state, family, command, eUnit)
      break
    case 'T':
      selectTool(state, family, command.code)
      break
    default:
      if (family.retraction === 'named') applyName(state, family, command)
  }
}

function applyG(state: FeedState, family: FirmwareFamily, { code, words }: Command): void {
  switch (code) {
    case 10:
      if (isRetraction(words, family)) retract(state, family)
      break
    case 11:
      takeBack(state, family)
      break
    case 20:
      state.inch = family.inchScalesE
      state.inchCubes = family.inchCubesVolumetric
      break
    case 21:
      state.inch = false
      state.inchCubes = false
      break
    case 90:
    case 91:
      setAxesMode(state, family, code === 91)
      break
    case 92:
      rebase(state, family, words)
      break
    default:
  }
}

function applyM(state: FeedState, family: FirmwareFamily, command: Command, eUnit: EUnit): void {
  switch (command.code) {
    case 82:
    case 83:
      setExtruderMode(state, family, command.code === 83)
      break
    case 200:
      if (eUnit === 'code') setVolumetric(state, family, command)
      break
    case 207:
      setRetraction(state, family, command.words)
      break
    case 208:
      if (family.retraction === 'M207-M208' || family.retraction === 'M207-M208-S') {
        put(state, toolColumn.retractExtra, valueOf(command.words, 'S'))
      }
      break
    case 221:
      setFlow(state, family, command.words)
      break
    default:
  }
}

type Words = Command['words']

const valueOf = (words: Words, letter: string): number | undefined =>
  words.get(letter)?.value ?? undefined

/** Sets a column of one tool, or of all where none is named; nothing without a sound value. */
function put(state: FeedState, column: ToolColumn, value: number | undefined, tool?: number): void {
  if (value === undefined || !Number.isFinite(value)) return
  if (tool === undefined) state.setAll(column, value)
  else if (isTool(tool)) state.set(column, value, tool)
}

const isTool = (tool: number): boolean => Number.isInteger(tool) && tool >= 0 && tool < toolNumbers

/** Sets both mode flags and what they come to under the family's rule. */
export function setMode(
  state: FeedState,
  family: FirmwareFamily,
  axesRelative: boolean,
  eFlagRelative: boolean,
): void {
  state.axesRelative = axesRelative
  state.eFlagRelative = eFlagRelative
  const saysRelative = eFlagRelative || (family.extruderMode === 'either' && axesRelative)
  state.relative = state.eMode === 'code' ? saysRelative : state.eMode === 'relative'
}

function setAxesMode(state: FeedState, family: FirmwareFamily, relative: boolean): void {
  setMode(
    state,
    family,
    relative,
    family.extruderMode === 'linked' ? relative : state.eFlagRelative,
  )
}

function setExtruderMode(state: FeedState, family: FirmwareFamily, relative: boolean): void {
  setMode(state, family, state.axesRelative, relative)
}

function rebase(state: FeedState, family: FirmwareFamily, words: Words): void {
  const word = words.get('E')
  if (word === undefined) {
    if (words.size === 0 && family.bareG92ZeroesE) state.e = 0
  } else if (word.value !== null) {
    state.e = state.targetOf(word.value)
  } else if (family.g92BareEZeroesE) {
    state.e = 0
  }
}

function selectTool(state: FeedState, family: FirmwareFamily, tool: number): void {
  if (!isTool(tool) || tool === state.tool) return
  // Kept for every family, though one alone reads it: else the states would never be equal again.
  state.set(toolColumn.register, state.e)
  if (family.toolChange === 'own-register') {
    state.e = state.get(toolColumn.register, tool)
  } else if (family.toolChange === 'zeroes-and-resets-flow') {
    state.e = 0
    state.set(toolColumn.flow, 1, tool)
  }
  state.select(tool)
}

function setFlow(state: FeedState, family: FirmwareFamily, words: Words): void {
  const percent = valueOf(words, 'S')
  if (percent === undefined || !Number.isFinite(percent) || percent < 0) return
  switch (family.flow) {
    case 'T-or-active':
      put(state, toolColumn.flow, Math.trunc(percent) / 100, valueOf(words, 'T') ?? state.tool)
      break
    case 'D-drive-or-tool':
      if (percent < 1) return
      put(state, toolColumn.flow, Math.min(percent, 200) / 100, valueOf(words, 'D') ?? state.tool)
      break
    case 'active-resets':
      if (percent > 0) put(state, toolColumn.flow, percent / 100, state.tool)
      break
    case 'active':
      put(state, toolColumn.flow, percent / 100, state.tool)
      break
  }
}

/** The tool that a letter names, the active one without it; null when it names none. */
function toolNamed(state: FeedState, words: Words, letter: string): number | null {
  const tool = valueOf(words, letter) ?? state.tool
  return isTool(tool) ? tool : null
}

function setVolumetric(state: FeedState, family: FirmwareFamily, { words }: Command): void {
  const word = words.get('D')
  const diameter = word?.value ?? 0
  const given = diameter > 0 && Number.isFinite(diameter)
  const switched = family.volumetric === 'S-switch' || family.volumetric === 'colon-list'
  const onOff = switched ? valueOf(words, 'S') : undefined
  if (family.volumetric === 'none') return
  if (family.volumetric === 'colon-list') setDiameters(state, word, given)
  else {
    const tool = toolNamed(state, words, family.volumetric === 'P-extruder' ? 'P' : 'T')
    if (tool === null) return
    if (given) state.set(toolColumn.diameter, diameter, tool)
  }
  const some = given || (word?.list?.some((each) => each > 0) ?? false)
  if (onOff === 0 || (word !== undefined && !given)) state.volumetric = false
  else if (some || onOff !== undefined) state.volumetric = true
}

function setDiameters(state: FeedState, word: Word | undefined, given: boolean): void {
  if (word?.list !== undefined) {
    word.list.forEach((each, drive) => {
      if (each > 0) put(state, toolColumn.diameter, each, drive)
    })
  } else if (given) state.setAll(toolColumn.diameter, word?.value as number)
}

function isRetraction(words: Words, family: FirmwareFamily): boolean {
  for (const letter of ['P', 'R', 'L', 'X', 'Y', 'Z', 'U', 'V', 'W', 'A', 'B', 'C']) {
    if (words.has(letter)) return false
  }
  return !(family.g10WithSIsSetting && words.has('S'))
}

function setRetraction(state: FeedState, family: FirmwareFamily, words: Words): void {
  if (family.retraction === 'named') return
  const tool = family.retraction === 'M207-R' ? valueOf(words, 'P') : undefined
  const length = valueOf(words, 'S')
  if (length !== undefined && length >= 0) put(state, toolColumn.retractLength, length, tool)
  if (family.retraction === 'M207-R') {
    put(state, toolColumn.retractExtra, valueOf(words, 'R'), tool)
  }
}

function retract(state: FeedState, family: FirmwareFamily): void {
  if (state.get(toolColumn.retracted) === 1) return
  state.set(toolColumn.retracted, 1)
  state.feed(toPicometres(-scaled(state, family, state.get(toolColumn.retractLength))))
}

function takeBack(state: FeedState, family: FirmwareFamily): void {
  if (state.get(toolColumn.retracted) === 0) return
  state.set(toolColumn.retracted, 0)
  const length = state.get(toolColumn.retractLength) + state.get(toolColumn.retractExtra)
  state.feed(toPicometres(scaled(state, family, length)))
}

const scaled = (state: FeedState, family: FirmwareFamily, length: number): number =>
  family.retractionScaled ? length * state.get(toolColumn.flow) : length

/** Reads `KEY=value` from the rest of a named command. */
export function parameter(rest: string, key: string): string | undefined {
  return new RegExp(String.raw`(?:^|\s)${key}\s*=\s*(\S+)`, 'i').exec(rest)?.[1]
}

function applyName(state: FeedState, family: FirmwareFamily, { name, rest }: Command): void {
  switch (name.toUpperCase()) {
    case 'ACTIVATE_EXTRUDER': {
      const digits = /^extruder(\d*)$/i.exec(parameter(rest, 'EXTRUDER') ?? '')?.[1]
      if (digits !== undefined) selectTool(state, family, Number(digits))
      break
    }
    case 'SAVE_GCODE_STATE':
      keepState(state, rest)
      break
    case 'RESTORE_GCODE_STATE':
      bringBack(state, family, rest)
      break
    case 'SET_RETRACTION':
      if ((numberOf(rest, 'RETRACT_LENGTH') ?? 0) >= 0) {
        put(state, toolColumn.retractLength, numberOf(rest, 'RETRACT_LENGTH'))
      }
      put(state, toolColumn.retractExtra, numberOf(rest, 'UNRETRACT_EXTRA_LENGTH'))
      break
    default:
  }
}

function numberOf(rest: string, key: string): number | undefined {
  const text = parameter(rest, key)
  return text === undefined ? undefined : Number.parseFloat(text)
}

const savedStates = 64

function keepState(state: FeedState, rest: string): void {
  const saved = new Map(state.saved)
  if (saved.size >= savedStates) return
  saved.set(parameter(rest, 'NAME') ?? 'default', {
    axesRelative: state.axesRelative,
    eFlagRelative: state.eFlagRelative,
    e: state.e,
    flow: state.get(toolColumn.flow),
  })
  state.saved = saved
}

function bringBack(state: FeedState, family: FirmwareFamily, rest: string): void {
  const kept = state.saved.get(parameter(rest, 'NAME') ?? 'default')
  if (kept === undefined) return
  setMode(state, family, kept.axesRelative, kept.eFlagRelative)
  state.e = kept.e
  state.set(toolColumn.flow, kept.flow)
}
