import type { WaitingChangesJson, WaitingToolJson } from '../contract/index.ts'
import type { WaitingTold } from '../service/index.ts'
import { parseDuration } from '../units/index.ts'
import { usageFault } from './fault.ts'
import { keyedList } from './keyed-list.ts'
import { parseDue } from './parse-moment.ts'
import { taken } from './taken.ts'

/** What is told of a waiting print, as typed. */
export interface WaitingText {
  readonly name?: string
  readonly copies?: string
  readonly material?: string
  readonly colour?: readonly string[]
  readonly tool?: readonly string[]
  readonly onPrinter?: readonly string[]
  readonly due?: string
  readonly importance?: string
  readonly changes?: string
  readonly changeAfter?: string
  readonly takes?: string
  readonly note?: string
}

/** What was told of a waiting print. @throws Fault of wrong usage */
export const waitingTold = (typed: WaitingText): WaitingTold => {
  const { name, copies, due, importance, takes, note, onPrinter } = typed
  const tools = toolsTold(typed)
  const changes = changesTold(typed)
  return {
    ...(name !== undefined && { name }),
    ...(copies !== undefined && { copies: whole(copies, '--copies', 1, 1000) }),
    ...(tools && { tools }),
    ...(onPrinter !== undefined && { printers: onPrinter }),
    ...(due !== undefined && { due: parseDue(due, '--due') }),
    ...(importance !== undefined && { importance: whole(importance, '--importance', -9, 9) }),
    ...(changes && { changes }),
    ...(takes !== undefined && { duration_h: hours(takes, '--takes') }),
    ...(note !== undefined && { note }),
  }
}

/** A whole number. @throws Fault */
export const whole = (typed: string, option: string, least: number, most: number): number => {
  const value = /^[+-]?\d{1,6}$/.test(typed.trim()) ? Number(typed) : Number.NaN
  if (value >= least && value <= most) return value
  throw usageFault(
    'count_malformed',
    `${option}: "${typed}" is no whole number from ${least} to ${most}.`,
    option,
  )
}

/** `3.5h`, `3h 20min`, `45min`, in hours. @throws Fault */
export const hours = (typed: string, option: string): number =>
  taken(parseDuration(typed), option) / 3600

const toolsTold = ({
  material,
  colour,
  tool,
}: WaitingText): readonly WaitingToolJson[] | undefined => {
  if (tool === undefined) {
    if (material === undefined && colour === undefined) return undefined
    return [
      { tool: 0, ...(material !== undefined && { material }), ...(colour && { colours: colour }) },
    ]
  }
  if (material !== undefined || colour !== undefined) {
    throw usageFault(
      'tool_and_material',
      "--material and --colour are for a print with one tool. With --tool say them there: --tool 'T0: material=PLA, colour=red'.",
      '--tool',
    )
  }
  return tool.map(oneTool)
}

const oneTool = (typed: string): WaitingToolJson => {
  const [, number, rest] = /^\s*T?(\d{1,2})\s*:(.*)$/is.exec(typed) ?? []
  if (rest === undefined) {
    throw usageFault(
      'tool_malformed',
      `--tool: "${typed}" does not say what which tool wants. Write for example --tool 'T0: material=PLA, colour=red or blue'.`,
      '--tool',
    )
  }
  const keys = keyedList(rest, ['material', 'colour', 'reel'], '--tool')
  const [material, colour, reel] = [keys.get('material'), keys.get('colour'), keys.get('reel')]
  return {
    tool: Number(number),
    ...(material !== undefined && { material }),
    ...(colour !== undefined && {
      colours: colour.split(/\s+or\s+/i).map((name) => name.trim()),
    }),
    ...(reel !== undefined && { reel }),
  }
}

const changesTold = ({ changes, changeAfter }: WaitingText): WaitingChangesJson | undefined => {
  if (changes === undefined && changeAfter === undefined) return undefined
  return {
    ...(changes !== undefined && { most: whole(changes, '--changes', 1, 9) }),
    ...(changeAfter !== undefined && { after_layers: ranges(changeAfter) }),
  }
}

const ranges = (typed: string): readonly (readonly [number, number])[] =>
  typed.split(',').map((part) => {
    const [, first, last = first] =
      /^\s*(\d{1,7})\s*(?:(?:-|–|to)\s*(\d{1,7}))?\s*$/.exec(part) ?? []
    if (first !== undefined && Number(first) >= 1 && Number(first) <= Number(last)) {
      return [Number(first), Number(last)] as const
    }
    throw usageFault(
      'layers_malformed',
      `--change-after: "${part.trim()}" are no layers. Write one layer or a range, as '40-120, 150'.`,
      '--change-after',
    )
  })
