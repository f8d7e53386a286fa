import type { SupposedJson, ToolCheckJson } from '../../contract/index.ts'
import type { SupposedKind } from './supposed-part.ts'

/** A measurement that settles a call more seldom than this is not worth its line. */
const worthTelling = 0.05

type Next = ToolCheckJson['next'][number]

/** One measurement that is made elsewhere, and only told of here. */
export interface WayTold {
  readonly kind: 'told'
  readonly next: Next
}

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

interface Placed {
  readonly place: number
  readonly way: WayToSettle | WayTold
}

/** What each measurement supposes, by the ids of `next`. */
const kinds: readonly (readonly [id: string, kind: SupposedKind])[] = [
  ['weigh_reel', 'weighing'],
  ['weigh_empty_carrier', 'empty_carrier'],
  ['calipers', 'calipers'],
  ['weigh_cut_metre', 'cut'],
]

/**
 * The measurements that settle a call, the best one first: those that can be typed beside it, and those
 * that are told. A reel can always be weighed while it is close.
 *
 * @param asked - the measurements that were asked for before anything was supposed: what is supposed is
 *   told of by them, and all keep the order
 */
export const waysToSettle = (
  { verdict, next }: Pick<ToolCheckJson, 'verdict' | 'next'>,
  asked: readonly Next[],
  supposed: SupposedJson,
): { readonly order: readonly (WayToSettle | WayTold)[]; readonly isSupposed: boolean } => {
  const isSupposed = kinds.some(([, kind]) => supposed[kind] !== undefined)
  const inOrder = isSupposed ? asked : next
  const placeOf = (id: string): number => {
    const place = inOrder.findIndex((one) => one.id === id && one.settles >= worthTelling)
    return place < 0 ? inOrder.length : place
  }
  const first = inOrder.find(({ settles }) => settles >= worthTelling)?.id ?? kinds[0]?.[0]
  const worth = next.filter(({ settles }) => settles >= worthTelling)
  const told = worth.filter(({ id }) => verdict === 'close' && !kinds.some(([one]) => one === id))
  const order = [
    ...told.map((one): Placed => ({ place: placeOf(one.id), way: { kind: 'told', next: one } })),
    ...kinds.map(([id, kind]): Placed => {
      const found = worth.find((one) => one.id === id)
      const isOpen =
        supposed[kind] !== undefined ||
        (verdict === 'close' && (kind === 'weighing' || found !== undefined))
      return {
        place: placeOf(id),
        way: {
          kind,
          next: found ?? asked.find((one) => one.id === id),
          isFirst: id === first,
          isOpen,
        },
      }
    }),
  ].toSorted((one, other) => one.place - other.place)
  return { order: order.map(({ way }) => way), isSupposed }
}
