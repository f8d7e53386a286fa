import { type ReelBelief, reckonReel } from '../estimate/index.ts'
import { reelTwice } from '../service/index.ts'
import type { Refusal } from '../units/index.ts'
import { exitCode, Fault, usageFault } from './fault.ts'
import { type ReelOptionName, reelOptions } from './option-table.ts'
import { parseReel, type ReelText } from './parse-reel.ts'
import { parseTool } from './parse-tool.ts'
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
  const texts = new Map<number, ReelText>()
  for (const spec of specs) {
    const { tool, text } = parseTool(spec)
    if (texts.has(tool))
      throw usageFault('tool_twice', `--tool: T${tool} is given twice.`, '--tool')
    if (!tools.includes(tool)) {
      throw usageFault(
        'tool_not_used',
        `--tool: the print does not feed from T${tool}. It feeds from ${list(tools)}.`,
        '--tool',
      )
    }
    texts.set(tool, text)
  }
  const common = new Map([...plain].filter(([name]) => shared.has(name)))
  const own = plain.size > common.size || texts.size === 0
  const first = tools.find((tool) => !texts.has(tool))
  if (own && first === undefined) {
    throw usageFault(
      'reel_without_tool',
      `Every tool has its --tool already: ${[...plain.keys()].map((name) => `--${name}`).join(', ')} is of no reel.`,
    )
  }
  if (own && first !== undefined) texts.set(first, plain)
  const bare = tools.filter((tool) => !texts.has(tool))
  if (bare.length > 0) {
    const isNamed = [...texts.values()].some((text) => text.has('reel'))
    throw usageFault(
      'tool_without_reel',
      `The print feeds from ${list(tools)}. Say what is known of each reel: --tool 'T${bare[0]}: ${isNamed ? 'reel=ID' : 'gross=402g, tare=212g'}'.`,
      '--tool',
    )
  }
  const served = tools.map((tool): ToolReel => {
    const text = texts.get(tool)!
    const inTool = specs.length > 0 && text !== plain
    const nameOf = (name: ReelOptionName): string =>
      inTool ? `--tool T${tool}, ${name}` : `--${name}`
    if (text.has('reel') && findOnShelf !== undefined) {
      return { tool, ...findOnShelf(text, nameOf) }
    }
    const facts = parseReel(new Map([...common, ...text]), nameOf)
    const outcome = reckonReel(facts)
    if (!outcome.ok) throw refusedReel(outcome.refusal, tools.length > 1 ? tool : undefined)
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

const list = (tools: readonly number[]): string => tools.map((tool) => `T${tool}`).join(', ')

const hints: Readonly<Record<string, string>> = {
  nothing_known:
    ' Options for that: --gross 422g, --winding with its sizes, --net, --length, or --new with --label.',
  density_needed: ' Options for that: --cut 1m=2.98g, --linear-density, --density.',
}

const refusedReel = (
  { code, message, expected, received }: Refusal,
  tool: number | undefined,
): Fault =>
  new Fault(exitCode.usage, {
    code,
    message: `${tool === undefined ? '' : `T${tool}: `}${message}${hints[code] ?? ''}`,
    expected: expected ?? null,
    received: received ?? null,
  })
