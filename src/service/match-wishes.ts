import type { WaitingRowJson } from '../contract/index.ts'
import type { MatchBar, MatchCopy, MatchLock } from '../match/index.ts'
import { accept, formatCount, type Outcome, refuse } from '../units/index.ts'
import { findReel } from './find-reel.ts'
import { findWaiting } from './find-waiting.ts'
import type { CopyAsked, MatchMeant, ReelOffered } from './match-question.ts'
import { nameOfReel } from './name-of-reel.ts'
import type { ShelfView } from './shelf-view.ts'
import { wantedWords } from './wanted-words.ts'
import { whyNotInUse } from './why-not-in-use.ts'

/** What can be wished for. */
interface Wishable {
  readonly copies: ReadonlyMap<string, CopyAsked>
  readonly matched: readonly MatchCopy[]
  readonly offered: readonly ReelOffered[]
  /** Sentences about the reels of the shelf that are left out. */
  readonly leftOut: readonly string[]
}

interface Wishes {
  readonly locks: readonly MatchLock[]
  readonly barred: readonly MatchBar[]
  readonly notes: readonly string[]
}

/**
 * The reels a person chose and those they will not have. What can not be kept to is refused, for a plan
 * around it would answer another question.
 *
 * @returns `lock_does_not_fit`, `lock_forbidden`, `locks_contradict`, `tool_not_used`, and as `findWaiting`, `findReel`
 */
export const wishesOf = (
  view: ShelfView,
  asked: MatchMeant,
  wishable: Wishable,
): Outcome<Wishes> => {
  const { copies, matched } = wishable
  const told = locksOf(view, asked, copies)
  if (!told.ok) return told
  const { locks, idle } = told.value
  const barred = barsOf(view, asked, copies)
  if (!barred.ok) return barred
  for (const lock of locks) {
    const { row } = copies.get(lock.copy)!
    const tasks = matched.find(({ id }) => id === lock.copy)?.tasks ?? []
    if (!tasks.some(({ tool, fits }) => tool === lock.tool && fits.includes(lock.reel))) {
      return misfitOf(view, lock, row, wishable)
    }
    const bar = barred.value.find(
      ({ reel, copy }) => reel === lock.reel && (copy === undefined || copy === lock.copy),
    )
    if (bar === undefined) continue
    const what = bar.copy === undefined ? 'every print' : row.name
    return refuse({
      code: 'lock_forbidden',
      message: `${row.name} can not be locked to reel ${calledReel(view, lock.reel)}: it is forbidden for ${what}. Leave out the lock, or no longer forbid it.`,
      received: lock.reel,
    })
  }
  const crowded = contradictionOf(view, locks, wishable)
  if (crowded !== undefined) return crowded
  const vain = [...new Set(barred.value.map(({ reel }) => reel))].flatMap((reel) => {
    const why = whyNotInUse(view, reel)
    return why === undefined
      ? []
      : [`To forbid reel ${calledReel(view, reel)} changes nothing: it ${why}.`]
  })
  return accept({ locks, barred: barred.value, notes: [...idle, ...vain] })
}

/** More reels for a tool than it has parts: one of them would have to be passed over. */
const contradictionOf = (
  view: ShelfView,
  locks: readonly MatchLock[],
  { copies, matched }: Wishable,
): Outcome<never> | undefined => {
  for (const own of Map.groupBy(locks, ({ copy, tool }) => `${copy} T${tool}`).values()) {
    const { copy, tool } = own[0]!
    const { tasks, changes } = matched.find(({ id }) => id === copy)!
    const most = changes === undefined ? 0 : (changes.most ?? 1)
    if (own.length <= most + 1) continue
    const { name } = copies.get(copy)!.row
    const what = tasks.length > 1 ? `T${tool} of ${name}` : name
    const reels = own.map(({ reel }) => calledReel(view, reel))
    const room =
      most === 0
        ? 'as it is not to be changed in mid-print, only one reel can feed it'
        : `with ${formatCount(most, 'change')} in mid-print ${most + 1} reels can feed it`
    return refuse({
      code: 'locks_contradict',
      message: `${what} is locked to ${reels.join(' and ')}: ${room}. Leave out a lock, or allow it ${formatCount(own.length - 1, 'change')} in mid-print.`,
      received: reels.join(', '),
    })
  }
  return undefined
}

const calledReel = ({ cards }: Pick<ShelfView, 'cards'>, reel: string): string => {
  const card = cards.get(reel)
  return card === undefined ? reel : `${reel} (${nameOfReel(card)})`
}

const locksOf = (
  view: ShelfView,
  { locks = [] }: MatchMeant,
  copies: ReadonlyMap<string, CopyAsked>,
): Outcome<{ readonly locks: readonly MatchLock[]; readonly idle: readonly string[] }> => {
  const found: MatchLock[] = []
  const idle: string[] = []
  for (const { waiting, copy, tool, reel: typed } of locks) {
    const row = findWaiting(view.rows, waiting)
    if (!row.ok) return row
    const reel = reelMeant(view, typed)
    if (!reel.ok) return reel
    const { name, id } = row.value
    const rest = [...copies.values()].filter((each) => each.row.id === id)
    if (copy !== undefined && rest.length > 0 && !rest.some((each) => each.copy === copy)) {
      idle.push(
        `To lock copy ${copy} of ${name} changes nothing: no such copy waits to be planned.`,
      )
    }
    for (const each of copies.values()) {
      if (each.row.id !== row.value.id || (copy !== undefined && each.copy !== copy)) continue
      const of = tool ?? each.print.tools[0]!
      if (!each.print.tools.includes(of) || (tool === undefined && each.print.tools.length > 1)) {
        return refuse({
          code: 'tool_not_used',
          message: `${row.value.name} feeds from ${each.print.tools.map((one) => `T${one}`).join(', ')}: say which of them the lock is for.`,
        })
      }
      const lock = { copy: each.id, tool: of, reel: reel.value }
      const isThere = found.some(
        (one) => one.copy === lock.copy && one.tool === of && one.reel === lock.reel,
      )
      if (!isThere) found.push(lock)
    }
  }
  return accept({ locks: found, idle })
}

/** A lock that can not hold: better said than planned around. */
const misfitOf = (
  view: ShelfView,
  { tool, reel }: MatchLock,
  { name, tools }: WaitingRowJson,
  { offered, leftOut }: Wishable,
): Outcome<never> => {
  const found = offered.find(({ id }) => id === reel)
  const wanted = wantedWords(view.rows, tools?.find((each) => each.tool === tool) ?? {})
  return refuse({
    code: 'lock_does_not_fit',
    message:
      found === undefined
        ? `${name} can not be locked to reel ${calledReel(view, reel)}${whyNotOffered(view, reel, leftOut)}`
        : `${name} wants ${wanted}: reel ${reel}, ${found.name}, does not fit. Lock it to another, or change what it wants.`,
    received: reel,
  })
}

const whyNotOffered = (view: ShelfView, reel: string, leftOut: readonly string[]): string => {
  const why = whyNotInUse(view, reel)
  if (why !== undefined) {
    return `, which ${why}. Lock it to a reel in use, or put right the fact that says so.`
  }
  const note = leftOut.find((each) => each.includes(reel))
  return note === undefined
    ? ': no new reel of that number is told of.'
    : `. ${note} Lock it to another.`
}

const barsOf = (
  view: ShelfView,
  { forbidden = [] }: MatchMeant,
  copies: ReadonlyMap<string, CopyAsked>,
): Outcome<readonly MatchBar[]> => {
  const bars: MatchBar[] = []
  for (const { reel: typed, waiting } of forbidden) {
    const reel = reelMeant(view, typed)
    if (!reel.ok) return reel
    if (waiting === undefined) {
      bars.push({ reel: reel.value })
      continue
    }
    const row = findWaiting(view.rows, waiting)
    if (!row.ok) return row
    for (const { id, row: each } of copies.values()) {
      if (each.id === row.value.id) bars.push({ reel: reel.value, copy: id })
    }
  }
  return accept(bars)
}

/** A reel of the shelf, or `new 1`. */
const reelMeant = (view: ShelfView, typed: string): Outcome<string> =>
  /^new \d+$/.test(typed.trim()) ? accept(typed.trim()) : findReel(view, typed)
