import type { FirmwareFamilyId, ReadOptions } from '../../src/print/index.ts'
import { codePart, firstCommand, isLookedInto, isMove, lexWords, readNamed } from './twin-line.ts'
import { closesLoop, loopOpening } from './twin-loops.ts'
import type { ProgramText } from './twin-text.ts'

const known = new Set([
  'SDCARD_LOOP_BEGIN',
  'SDCARD_LOOP_END',
  'PAUSE',
  'CANCEL_PRINT',
  'ACTIVATE_EXTRUDER',
  'SAVE_GCODE_STATE',
  'RESTORE_GCODE_STATE',
  'SET_RETRACTION',
  'SET_GCODE_OFFSET',
  'FORCE_MOVE',
  'SYNC_EXTRUDER_MOTION',
  'SET_EXTRUDER_ROTATION_DISTANCE',
])
const alwaysUnfollowed = new Set([
  'FORCE_MOVE',
  'SYNC_EXTRUDER_MOTION',
  'SET_EXTRUDER_ROTATION_DISTANCE',
])

export const isKnownName = (name: string): boolean => known.has(name)

/** What can be told from a line alone, line by line. */
const lineFindings = (text: string): readonly string[] => {
  const code = codePart(text)
  const named = readNamed(text)
  const first = firstCommand(text)
  const found: string[] = []

  if (loopOpening(text) !== undefined || closesLoop(text)) found.push('loop')
  if (named) {
    if (alwaysUnfollowed.has(named.name)) found.push('feed_not_followed')
    if (
      named.name === 'SET_GCODE_OFFSET' &&
      [...named.values.keys()].some((key) => key.startsWith('E'))
    ) {
      found.push('feed_not_followed')
    }
  }
  const capital = /^[A-Z][A-Z0-9_]{2,}(?=[ \t]|$)/.exec(code)?.[0]
  if (capital && !/^[GMT][0-9]/.test(capital) && !known.has(capital)) found.push('macro_calls')
  if (/^(if|elif|else|while|var|set|global|echo|abort|break|continue|skip)\b/.test(code)) {
    found.push('meta_commands')
  }
  if (first === undefined) return found

  const words = lexWords(code, false)
  const has = (letter: string): boolean => words.some((word) => word.letter === letter)
  if (/^M(98|81[0-9])$/.test(first)) found.push('macro_calls')
  if (/^M(16[3-6]|567)$/.test(first)) found.push('mixing')
  if (first === 'M92' && has('E')) found.push('feed_not_followed')
  if (first === 'G20') found.push('inch_mode')
  if (first === 'M209' && words.some((word) => word.letter === 'S' && word.values[0] === 1)) {
    found.push('auto_retraction')
  }
  if (first.startsWith('T') && Number(first.slice(1)) >= 100) found.push('tool_macro')
  if (!isLookedInto(first)) return found

  const several = words.filter(({ letter, values }) => 'GM'.includes(letter) && values.length > 0)
  if (several.length > 1 && has('E')) found.push('two_commands')
  const movesOrSets = several.some(({ letter, values }) => {
    const name = `${letter}${values[0]}`
    return isMove(name) || name === 'G92'
  })
  if (!movesOrSets) return found
  if (code.includes('(')) found.push('bracket_on_move')
  if (words.filter(({ letter }) => letter === 'E').length > 1) found.push('duplicate_word')
  if (/e[ \t]*[+-]?[0-9]*\.[0-9]*\./i.test(code)) found.push('doubled_point')
  if (isMove(first) && /^g|[xyze][ \t]*[+-]?[0-9.]/.test(code)) found.push('lower_case')
  return found
}

const volumetricOn = (text: string): boolean => {
  if (firstCommand(text) !== 'M200') return false
  const value = (letter: string): number | undefined =>
    lexWords(codePart(text), false).findLast((word) => word.letter === letter)?.values[0]
  return value('S') !== 0 && ((value('D') ?? 0) > 0 || value('S') !== undefined)
}

/** Codes of what a person should know, except those that need the families' totals. */
export const findFindings = (
  program: ProgramText,
  families: readonly FirmwareFamilyId[],
  options: ReadOptions,
): Set<string> => {
  const found = new Set<string>()
  if (program.byteOrderMark) found.add('byte_order_mark')
  if (program.loneCr) found.add('lone_cr')
  for (const { text } of program.lines) {
    for (const code of lineFindings(text)) found.add(code)
    if (families.includes('host') && (options.eUnit ?? 'code') === 'code' && volumetricOn(text)) {
      found.add('volumetric_ignored_by_host')
    }
  }
  return found
}
