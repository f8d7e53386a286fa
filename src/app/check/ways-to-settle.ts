import type { SupposedJson, ToolCheckJson } from '../../contract/index.ts'
import type { SupposedKind } from './supposed-part.ts'

/** A measurement that settles a call more seldom than this is not worth its line. */
const worthTelling = 0.05

type Next = ToolCheckJson['next'][number]

/** One measurement that can be typed in place. */
export interface WayToSettle {
  readonly kind: SupposedKind
  /** What it is worth; undefined where nothing was said of it. */
  readonly next: Next | undefined
  /** True for the one measurement to make. */
  readonly isFirst: boolean
  /** False where it would settle nothing. */
  readonly isOpen: boolean
}

/** What each measurement supposes, by the ids of `next`. */
const kinds: readonly (readonly [id: string, kind: SupposedKind])[] = [
  ['weigh_reel', 'weighing'],
  ['weigh_empty_carrier', 'empty_carrier'],
  ['calipers', 'calipers'],
  ['weigh_cut_metre', 'cut'],
]

/**
 * The measurements that can be typed beside a call: those that settle it before, the best one first. A reel
 * can always be weighed while it is close.
 *
 * @param asked - the measurements that were asked for before anything was supposed: what is supposed is
 *   told of by them, and all keep the order
 */
export const waysToSettle = (
  { verdict, next }: Pick<ToolCheckJson, 'verdict' | 'next'>,
  asked: readonly Next[],
  supposed: SupposedJson,
): { readonly order: readonly WayToSettle[]; readonly isSupposed: boolean } => {
  const isSupposed = kinds.some(([, kind]) => supposed[kind] !== undefined)
  const inOrder = isSupposed ? asked : next
  const placeOf = (id: string): number => {
    const place = inOrder.findIndex((one) => one.id === id && one.settles >= worthTelling)
    return place < 0 ? inOrder.length : place
  }
  const order = kinds
    .toSorted(([one], [other]) => placeOf(one) - placeOf(other))
    .map(([id, kind], place): WayToSettle => {
      const found = next.find((one) => one.id === id && one.settles >= worthTelling)
      const isOpen =
        supposed[kind] !== undefined ||
        (verdict === 'close' && (kind === 'weighing' || found !== undefined))
      const told = found ?? asked.find((one) => one.id === id)
      return { kind, next: told, isFirst: place === 0, isOpen }
    })
  return { order, isSupposed }
}
