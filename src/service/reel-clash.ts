import {
  type CatalogueRowJson,
  type FactJson,
  isCatalogueRow,
  isPrintRow,
  type LedgerRecord,
  type OpenedJson,
} from '../contract/index.ts'
import { describeFact, ledgerNames, standingFacts } from '../ledger/index.ts'
import type { Refusal } from '../units/index.ts'
import { formatIsoDay } from '../units/index.ts'
import { newRowId } from './new-id.ts'

/** Clashes that are told one by one. */
const told = 8

/**
 * Whether records of another ledger speak of reels that have the id of another reel here: each was
 * opened in its own ledger. Were they taken over, the one's facts would count for the other.
 *
 * @param rows - here
 * @param facts - here, in the order written down; what the records have in common with them is no clash
 * @returns `reel_id_clash`, or undefined
 */
export const reelClash = (
  rows: readonly CatalogueRowJson[],
  facts: readonly FactJson[],
  records: readonly LedgerRecord[],
): Refusal | undefined => {
  const here = new Set(facts.map(({ id }) => id))
  const others = records.filter(
    (one): one is FactJson => !isCatalogueRow(one) && !isPrintRow(one) && !here.has(one.id),
  )
  const openings = new Map<string, OpenedJson[]>()
  const both = [...facts, ...others]
  for (const fact of standingFacts(both).facts) {
    if (fact.kind === 'opened') openings.set(fact.reel, [...(openings.get(fact.reel) ?? []), fact])
  }
  const clashes = [...openings.values()].flatMap((of) => {
    const mine = of.find(({ id }) => here.has(id))
    const its = of.find(({ id }) => !here.has(id))
    return mine === undefined || its === undefined ? [] : [{ mine, its }]
  })
  const [first] = clashes
  if (first === undefined) return undefined

  const theirRows = records.filter(isCatalogueRow)
  const taken = new Set([...rows, ...theirRows].map(({ id }) => id))
  // Ids of reels put right stay theirs, so that no old label names a new reel.
  for (const fact of both) if (fact.kind === 'opened') taken.add(fact.reel)
  const lines = clashes.slice(0, told).map(({ mine, its }) => {
    const free = freeId(mine.reel, taken)
    taken.add(free)
    return `\n  ${mine.reel}  here ${say(mine, rows)}; in the file ${say(its, [...rows, ...theirRows])}; free is ${free}`
  })
  const more = clashes.length > told ? `\n  and ${clashes.length - told} more` : ''
  return {
    code: 'reel_id_clash',
    message: `Nothing was taken over: another reel has the id here of ${clashes.length === 1 ? 'a reel' : `${clashes.length} reels`} of the file. If they are two reels, give that of the file an id of its own: put a free id in place of "${first.mine.reel}" everywhere in the file, write it on the reel, and import again. If they are one, leave the line that opens it out of the file: its other facts then join those here.${lines.join('')}${more}`,
    received: first.mine.reel,
  }
}

const say = (fact: OpenedJson, known: readonly CatalogueRowJson[]): string =>
  `${describeFact(fact, ledgerNames(known, []))} (${formatIsoDay(fact.at)})`

/** An id that nothing has; for one reel always the same, so that advice does not change when repeated. */
const freeId = (reel: string, taken: ReadonlySet<string>): string => {
  let state = Array.from(reel).reduce(
    (sum, letter) => (sum * 31 + letter.charCodeAt(0)) % 2_147_483_647,
    1,
  )
  // Park and Miller's minimal generator, its high bits.
  const randomByte = (): number => {
    state = (state * 48_271) % 2_147_483_647
    return Math.floor(state / 8_388_608) % 256
  }
  return newRowId({ randomByte }, (id) => taken.has(id))
}
