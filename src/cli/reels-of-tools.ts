import type { ReelBelief } from '../estimate/index.ts'
import { believeTold, reelsForTools, reelTwice } from '../service/index.ts'
import type { Refusal } from '../units/index.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import { type ReelOptionName, reelOptions } from './option-table.ts'
import { parseReel, type ReelText } from './parse-reel.ts'
import { parseTool, type ToolText } from './parse-tool.ts'
import type { ReelOnShelf } from './reel-on-shelf.ts'

/** What is believed of a tool's reel. */
export interface ToolReel {
  readonly tool: number
  readonly belief: ReelBelief
  /** Where it is a reel of the shelf. */
  readonly onShelf?: ReelOnShelf
}

/** Finds a reel of the shelf by what was typed, `reel` among it. @throws Fault of wrong usage */
export type FindOnShelf = (
  text: ReelText,
  nameOf: (name: ReelOptionName) => string,
) => Omit<ToolReel, 'tool'>

/** Options that may hold for all reels at once. */
const shared: ReadonlySet<ReelOptionName> = new Set(['scale', 'diameter', 'material', 'density'])

const camel = (name: string): string =>
  name.replaceAll(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())

/** What was typed of a reel outside `--tool`. */
export const plainReelText = (typed: object): ReelText => {
  const given = { ...typed } as Readonly<Record<string, string | true | undefined>>
  return new Map(
    reelOptions.flatMap(({ name }) => {
      const value = given[camel(name)]
      return value === undefined ? [] : [[name, value === true ? '' : value] as const]
    }),
  )
}

/**
 * One reel for each tool of the print. Plain options serve the lowest tool that `--tool` does not
 * name; scale, material, density and diameter serve every tool that does not say otherwise.
 *
 * @param findOnShelf - for tools whose reel is named by `reel`
 * @throws Fault of wrong usage: a tool without a reel, a reel without a tool, and what the facts
 *   are refused for
 */
export const reelsOfTools = (
  tools: readonly number[],
  plain: ReelText,
  specs: readonly string[],
  findOnShelf?: FindOnShelf,
): readonly ToolReel[] => {
  const named = specs.map(parseTool)
  const common = new Map([...plain].filter(([name]) => shared.has(name)))
  const own = plain.size > common.size || named.length === 0
  const reels: readonly (Partial<ToolText> & Pick<ToolText, 'text'>)[] = own
    ? [...named, { text: plain }]
    : named
  const given = reelsForTools(tools, reels)
  if (!given.ok) throw refusedTools(given.refusal, plain, named)
  const served = tools.map((tool): ToolReel => {
    const { text } = given.value.get(tool)!
    const nameOf = (name: ReelOptionName): string =>
      text === plain ? `--${name}` : `--tool T${tool}, ${name}`
    if (text.has('reel') && findOnShelf !== undefined) {
      return { tool, ...findOnShelf(text, nameOf) }
    }
    const told = parseReel(new Map([...common, ...text]), nameOf)
    const outcome = believeTold(told, tools.length > 1 ? tool : undefined)
    if (!outcome.ok) throw refusedReel(outcome.refusal)
    return { tool, belief: outcome.value }
  })
  const twice = reelTwice(
    served.flatMap(({ tool, onShelf }) =>
      onShelf === undefined ? [] : [{ tool, reel: onShelf.card.id }],
    ),
  )
  if (twice !== undefined) throw usageFault(twice.code, twice.message, '--tool')
  return served
}

const refusedTools = (
  { code, message, expected }: Refusal,
  plain: ReelText,
  named: readonly ToolText[],
): Fault => {
  const isNamed = plain.has('reel') || named.some(({ text }) => text.has('reel'))
  const ways: Readonly<Record<string, string>> = {
    reel_without_tool: ` That is ${[...plain.keys()].map((name) => `--${name}`).join(', ')}.`,
    tool_without_reel: ` Write --tool '${expected}: ${isNamed ? 'reel=ID' : 'gross=402g, tare=212g'}'.`,
  }
  return usageFault(code, `${message}${ways[code] ?? ''}`, '--tool')
}

const hints: Readonly<Record<string, string>> = {
  nothing_known:
    ' Options for that: --gross 422g, --winding with its sizes, --net, --length, or --new with --label.',
  density_needed: ' Options for that: --cut 1m=2.98g, --linear-density, --density.',
  tare_twice: ' Of --tare, --tare-of-make and --carrier one is taken.',
}

const refusedReel = ({ code, message, expected, received }: Refusal): Fault =>
  new Fault(exitCode.usage, {
    code,
    message: `${message}${hints[code] ?? ''}`,
    expected: expected ?? null,
    received: received ?? null,
  })
