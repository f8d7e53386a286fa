import { usageFault } from './fault.ts'
import { keyedList } from './keyed-list.ts'
import { type ReelOptionName, reelOptions } from './option-table.ts'
import type { ReelText } from './parse-reel.ts'

/** A tool and what was typed of its reel. */
export interface ToolText {
  readonly tool: number
  readonly text: ReelText
}

const keys: readonly ReelOptionName[] = reelOptions.map(({ name }) => name)

/**
 * Takes `T1: gross=402g, tare=212g` apart.
 *
 * @throws Fault `tool_malformed`, and as `keyedList`
 */
export const parseTool = (typed: string): ToolText => {
  const [, number, rest] = /^\s*T?(\d{1,2})\s*:(.*)$/is.exec(typed) ?? []
  if (number === undefined || rest === undefined) {
    throw usageFault(
      'tool_malformed',
      `--tool: "${typed}" does not begin with a tool. Write for example --tool 'T1: gross=402g, tare=212g'.`,
      '--tool',
    )
  }
  return { tool: Number(number), text: keyedList(rest, keys, `--tool T${number}`) }
}
