import type { Choices } from './choice.ts'
import type { CompiledSlate } from './compiled-slate.ts'

/** What one copy means for the order in which copies are printed. */
export interface OrderItem {
  readonly copy: number
  /** Place of its printer. */
  readonly printer: number
  readonly duration_h: number
  /** Infinity for none. */
  readonly due_h: number
  /** For each of its tools where in `ReelsOn` that is, and the reels that feed it, in their order. */
  readonly tools: readonly {
    readonly at: number
    readonly reels: readonly number[]
  }[]
}

/** Which reel is on each tool of each printer, by numbers of their own; −1 for none. Each is on one at most. */
export type ReelsOn = readonly number[]

/** What choices mean for the order in which copies are printed, and which reels are on at first. */
export interface ToOrder {
  /** The served copies, rising. */
  readonly items: readonly OrderItem[]
  readonly atFirst: ReelsOn
}

export const toOrder = (slate: CompiledSlate, choices: Choices): ToOrder => {
  const { printers, reels, copies } = slate
  const numbers = new Map<string, number>()
  const items = choices.flatMap((choice, copy): readonly OrderItem[] => {
    if (!choice) return []
    const { printer, servings } = choice
    const { duration_h, due_h, tasks } = copies[copy]!
    const tools = tasks.map(({ tool, place }) => {
      const key = `${printer} ${tool}`
      const at = numbers.get(key) ?? numbers.size
      numbers.set(key, at)
      const own = servings.filter(({ piece }) => piece.task === place)
      return { at, reels: own.map(({ reel }) => reel) }
    })
    return [{ copy, printer, duration_h: duration_h ?? 0, due_h: due_h ?? Infinity, tools }]
  })
  const atFirst = Array.from(numbers, () => -1)
  for (const [printer, { loaded = {} }] of printers.entries()) {
    for (const [tool, id] of Object.entries(loaded)) {
      const at = numbers.get(`${printer} ${tool}`)
      if (at !== undefined) atFirst[at] = reels.findIndex((reel) => reel.id === id)
    }
  }
  return { items, atFirst }
}

/**
 * Puts on what a copy needs, and says how many reels that are: those it begins with and that are not there yet.
 * A reel leaves where it was. What a change in mid-print brings is on as well, and is none of them.
 *
 * @param on - is changed
 */
export const putOn = (on: number[], { tools }: OrderItem): number => {
  let swaps = 0
  for (const { at, reels } of tools) {
    if (on[at] !== reels[0]) swaps++
    for (const reel of reels) {
      if (on[at] === reel) continue
      takeOff(on, reel)
      on[at] = reel
    }
  }
  return swaps
}

const takeOff = (on: number[], reel: number): void => {
  const at = on.indexOf(reel)
  if (at >= 0) on[at] = -1
}

/** How often a reel is put on along a sequence. */
export const swapsAlong = (items: readonly OrderItem[], atFirst: ReelsOn): number => {
  const on = [...atFirst]
  return items.reduce((sum, item) => sum + putOn(on, item), 0)
}

/** Whether copies leave on what they begin with. */
export const keepsReels = ({ tools }: OrderItem): boolean =>
  tools.every(({ reels }) => reels.length === 1)

/** A reel has to be put on at least once where it is neither on at first nor brought by a change. */
export const fewestSwaps = (items: readonly OrderItem[], on: ReelsOn): number => {
  const wanted = new Set<string>()
  const there = new Set(on.map((reel, at) => `${at} ${reel}`))
  for (const { at, reels } of items.flatMap(({ tools }) => tools)) {
    wanted.add(`${at} ${reels[0]}`)
    if (reels.length > 1) there.add(`${at} ${reels.at(-1)}`)
  }
  return wanted.difference(there).size
}
