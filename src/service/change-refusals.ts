import type { Refusal } from '../units/index.ts'

/** Two reels of one tool, told without the change between them. */
export const toolTwice = (tool: number): Refusal => ({
  code: 'tool_twice',
  message: `T${tool} is told twice, and a tool feeds from one reel at a time. Of a change of reels in the print, say after which layer the other took over.`,
  received: `T${tool}`,
})

/**
 * Why reels can not have been changed after a layer: after the last one nothing is left to feed.
 *
 * @param layer - 1-based
 * @param count - layers of the print
 */
export const changeBeyond = (layer: number, count: number): Refusal | undefined =>
  layer < count
    ? undefined
    : {
        code: 'beyond_print',
        message: `Reels can not be changed after layer ${layer}: the print has ${count}. Look at the number again.`,
        expected: `1 to ${count - 1}`,
        received: String(layer),
      }
