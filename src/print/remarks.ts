import { parameter } from './apply-command.ts'
import type { FindingCode } from './finding-catalogue.ts'
import { FindingLog } from './finding-log.ts'
import { type Command, codePart } from './lex-line.ts'
import { knownNames } from './listed-codes.ts'
import type { Stop } from './reading.ts'

const stopBudget = 10_000
/** Rest of a longer line is dropped by some boards, bytes. */
const shortLine = 95
/** Different macros named, at most. */
const macroBudget = 64

const mixingCodes: ReadonlySet<number> = new Set([163, 164, 165, 166, 567])
const pauseCodes: ReadonlySet<number> = new Set([0, 1, 25, 226, 601])
const metaWord = /^(?:if|elif|else|while|var|set|global|echo|abort|break|continue|skip)\b/

/** Where in the file and in the print a line stands. */
export type Where = Omit<Stop, 'kind' | 'command' | 'time_s'> & {
  /** Asks for a ticket for the time. */
  readonly ask: () => number
}

/** Keeps what a person should know of the lines besides their feed: findings, stops, macros. */
export class Remarks {
  readonly findings: FindingLog = new FindingLog()
  readonly stops: (Omit<Stop, 'layer' | 'time_s'> & { layer: number; readonly ticket: number })[] =
    []
  readonly macros: Map<string, number> = new Map()
  firmwareRetractions = 0
  macroCalls = 0
  /** M200 counts: E's unit was not answered. */
  readonly #volumetricCounts: boolean
  /** One of the families asked would ignore it. */
  readonly #volumetricIgnored: boolean

  constructor(volumetricCounts: boolean, volumetricIgnored: boolean) {
    this.#volumetricCounts = volumetricCounts
    this.#volumetricIgnored = volumetricIgnored
  }

  /** Notes a command. */
  command(command: Command, text: string, where: () => Where): void {
    const { letter, code } = command
    const note = (found: FindingCode): void => {
      const { byte, line } = where()
      this.findings.note(found, byte, line)
    }
    if (letter === 'M') this.#ofM(command, text, note, where)
    else if (letter === '') this.#ofName(command, note, where)
    else if (letter === 'T' && code >= 100) note('tool_macro')
    else if (letter === 'G' && code === 20) note('inch_mode')
    else if (letter === 'G' && code === 10) {
      this.firmwareRetractions++
      note('firmware_retraction')
    }
  }

  #ofM(
    { code, words }: Command,
    text: string,
    note: (found: FindingCode) => void,
    where: () => Where,
  ): void {
    if (code === 600) {
      this.#stop('change', text, where())
      note('planned_change')
    } else if (pauseCodes.has(code)) this.#stop('pause', text, where())
    else if (code === 2 || code === 30) {
      this.#stop('end', text, where())
      note('ends_job')
    } else if (code === 92 && words.has('E')) note('feed_not_followed')
    else if (mixingCodes.has(code)) note('mixing')
    else if (code === 98 || (code >= 810 && code <= 819)) this.#macro(`M${code}`, note)
    else if (code === 209 && words.get('S')?.value === 1) note('auto_retraction')
    else if (code === 200 && this.#volumetricCounts && switchesOn(words)) {
      note('volumetric')
      if (this.#volumetricIgnored) note('volumetric_ignored_by_host')
    }
  }

  #ofName({ name, rest }: Command, note: (found: FindingCode) => void, where: () => Where): void {
    switch (name.toUpperCase()) {
      case 'PAUSE':
        this.#stop('pause', name, where())
        return
      case 'CANCEL_PRINT':
        this.#stop('end', name, where())
        note('ends_job')
        return
      case 'SET_GCODE_OFFSET':
        if (parameter(rest, 'E') !== undefined) note('feed_not_followed')
        return
      case 'FORCE_MOVE':
      case 'SYNC_EXTRUDER_MOTION':
      case 'SET_EXTRUDER_ROTATION_DISTANCE':
        note('feed_not_followed')
        return
      default:
        if (knownNames.has(name.toUpperCase())) return
        if (metaWord.test(name)) note('meta_commands')
        else if (/^[A-Z][A-Z0-9_]{2,}$/.test(name)) this.#macro(name, note)
    }
  }

  #macro(name: string, note: (found: FindingCode) => void): void {
    this.macroCalls++
    if (this.macros.size < macroBudget || this.macros.has(name)) {
      this.macros.set(name, (this.macros.get(name) ?? 0) + 1)
    }
    note('macro_calls')
  }

  /** Notes what is odd about a line that moves or sets E. */
  oddMove(text: string, byte: number, line: number): void {
    const code = codePart(text)
    const note = (found: FindingCode): void => this.findings.note(found, byte, line)
    if (code.length > shortLine) note('long_line')
    if (code.includes('(')) note('bracket_on_move')
    if (/^g|[xyze][ \t]*[+-]?[\d.]/.test(code)) note('lower_case')
    if (/\dE[+-]?\d/i.test(code)) note('dense_e')
    if (/E[ \t]*[+-]?\d*\.\d*\./i.test(code)) note('doubled_point')
    if (/E[^E]*E/i.test(code)) note('duplicate_word')
    if (/[GM]\d[^GM]*[GM]\d/i.test(code)) note('two_commands')
  }

  #stop(kind: Stop['kind'], text: string, where: Where): void {
    if (this.stops.length >= stopBudget) return
    const { ask, ...place } = where
    this.stops.push({ kind, command: codePart(text).trim().slice(0, 32), ...place, ticket: ask() })
  }

  /** The layers so far belonged to a start macro: the stops in them belong to none. */
  forgetLayers(): void {
    for (const stop of this.stops) stop.layer = 0
  }
}

function switchesOn(words: Command['words']): boolean {
  const onOff = words.get('S')?.value
  return onOff !== 0 && ((words.get('D')?.value ?? 0) > 0 || onOff != null)
}
