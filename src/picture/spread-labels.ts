/**
 * Moves labels apart so that none stands on another: each keeps its order and lies as near to its
 * wish as the gap allows.
 *
 * @param wishes - where each label would stand, in any order
 * @param gap - least distance between two, ≥ 0
 * @param from - none stands below this
 * @param to - nor, where there is room, above this
 * @returns one place for each wish, in the order given
 */
export function spreadLabels(
  wishes: readonly number[],
  gap: number,
  from: number = -Infinity,
  to: number = Infinity,
): readonly number[] {
  const order = wishes.map((_, k) => k).toSorted((a, b) => (wishes[a] ?? 0) - (wishes[b] ?? 0))
  // Groups of labels that touch; each lies about the mean of what its labels wish.
  const groups: { sum: number; members: number[] }[] = []
  const start = ({ sum, members }: (typeof groups)[number]): number => {
    const middle = sum / members.length - ((members.length - 1) * gap) / 2
    const lowest = Math.min(middle, to - (members.length - 1) * gap)
    return Math.max(lowest, from)
  }
  for (const k of order) {
    let group = { sum: wishes[k] ?? 0, members: [k] }
    for (;;) {
      const last = groups.at(-1)
      if (last === undefined || start(last) + last.members.length * gap <= start(group)) break
      groups.pop()
      group = { sum: last.sum + group.sum, members: [...last.members, ...group.members] }
    }
    groups.push(group)
  }
  const places = wishes.slice()
  for (const group of groups) {
    group.members.forEach((k, place) => (places[k] = start(group) + place * gap))
  }
  return places
}
