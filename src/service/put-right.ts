import {
  type ColourJson,
  type DrewJson,
  type EmptiedJson,
  type FactJson,
  idLength,
  type MeasuredJson,
  type OpenedJson,
  type PriceJson,
  type PrintRowJson,
  type PutRightJson,
  type RanDryJson,
  readId,
  type StoppedAtJson,
  showId,
  type TrimmedJson,
  type WeighingJson,
} from '../contract/index.ts'
import { readingOfRow, shareFed } from '../ledger/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { usualScale } from './choose-scale.ts'
import { fedBetween } from './fed-between.ts'
import { findReel } from './find-reel.ts'
import { findRow, rowsOf } from './find-row.ts'
import type { HandedIn } from './handed-in.ts'
import { newFactId } from './new-id.ts'
import { overShelf } from './over-shelf.ts'
import { type Recorded, record, reelOf } from './record.ts'
import { factCommon, type Said } from './said.ts'
import { type ShelfView, viewOf } from './shelf-view.ts'
import { checkRunDry } from './surprise-of-run-dry.ts'
import { checkHeld, type Taking } from './surprise-of-taking.ts'
import { testOpening } from './test-opening.ts'
import { type Acceptance, carrierSize, recordWeighing, type Weighed } from './weigh.ts'
import { checkWeighedSince } from './weighed-since.ts'
import { weighingOf } from './weighing-told.ts'

/** A fact that does not hold, and what holds in its place. */
export interface PutRightInput extends Said {
  /** Id of the fact. */
  readonly fact: string
  readonly reason: string
  /** The right figure, where it has a mass. */
  readonly mass_g?: MeasuredJson
  /** One unit in the last place of the right mass as it was told, g. */
  readonly lastPlace_g?: number
  /** What else stood on the scale in a weighing; nothing where its value is 0. */
  readonly extra_g?: MeasuredJson
  /** The right figure, where it has a length. */
  readonly length_mm?: MeasuredJson
  /** Where the print ended before its end. */
  readonly stoppedAt?: StoppedAtJson
  /** Standard uncertainty of `stoppedAt.share`, as typed. */
  readonly shareDoubt?: number
  /** The reel it was. */
  readonly reel?: string
  /** The make it is, for `opened` and an empty carrier of no reel. */
  readonly make?: string
  /** Net mass on the label, of an opening, or of an empty carrier of no reel. */
  readonly label_net_g?: number
  /** Of the filament, of an opening. */
  readonly colour?: ColourJson
  /** Whether some had been fed before it came, of an opening. */
  readonly part_used?: boolean
  /** What was paid, of an opening. */
  readonly price?: PriceJson
  /** The maker's, of an opening. */
  readonly lot?: string
  /** Of what is right; a surprise that was shown is that of a weighing. */
  readonly accept?: Acceptance
}

/** What was written down, unless the right figure is a weighing too surprising to take. */
export interface PutRight {
  readonly recorded?: Recorded
  readonly weighed?: Weighed
}

/**
 * Declares a fact void, and records the right one in the same transaction where one is told. A
 * put-right that is put right makes the fact hold again that it had voided.
 *
 * @returns `fact_unknown`, `fact_void`, `nothing_instead`, `stop_needs_print`, `run_dry_surprising`,
 *   `carrier_size_needed`, `drew_more_than_held`, `weighed_since`, as `findReel`, `findRow`, `record`
 */
export const putRight = async (
  handed: HandedIn,
  input: PutRightInput,
): Promise<Outcome<PutRight>> => {
  const id = readId(input.fact, idLength.fact)
  if (!id.ok) return id
  return overShelf(handed, (view) => putRightOver(handed, view, id.value, input))
}

const putRightOver = async (
  handed: HandedIn,
  view: ShelfView,
  id: string,
  input: PutRightInput,
): Promise<Outcome<PutRight>> => {
  const wrong = view.facts.find((fact) => fact.id === id)
  if (wrong === undefined) {
    return refuse({
      code: 'fact_unknown',
      message: `There is no fact ${showId(id)} in this ledger. Each reel's facts stand with the reel, those of a make alone with the make.`,
      received: input.fact,
    })
  }
  const by = view.standing.voided.get(wrong.id)
  if (by !== undefined) {
    return refuse({
      code: 'fact_void',
      message: `${showId(wrong.id)} does not hold any more: ${showId(by.id)} put it right (${by.reason}). To make it hold again, put that right.`,
      received: input.fact,
    })
  }
  const isStopTold = input.stoppedAt !== undefined && wrong.kind === 'drew'
  const print = isStopTold && wrong.print ? await handed.store.print(wrong.print) : undefined
  const instead = insteadOf(handed, view, wrong, input, print)
  if (!instead.ok) return instead
  const { accept: accepted = false } = input
  const together = [...companionsOf(view, wrong), ...copiesDone(view, wrong, input)]
  const fact: PutRightJson = {
    kind: 'put-right',
    ...factCommon(handed, saidOf(input)),
    voids: wrong.id,
    reason: input.reason,
    ...(instead.value && { instead: instead.value.id }),
  }
  const tested = instead.value && testedAgain(view, fact, instead.value, accepted === true)
  if (tested?.ok === false) return tested
  const right = tested?.value
  const turned = turnedBy(view, wrong.id, false)
  const fits = checkWeighedSince(view, {
    facts: [
      ...turned.restored,
      ...(right ? [right] : []),
      ...turned.voided.map((each) => ({ ...fact, id: `${fact.id} ${each.id}`, voids: each.id })),
    ],
    reels: [...turned.voided, ...turned.restored, ...(right ? [right] : [])].filter(isTaking),
    isAccepted: accepted === true,
    isPutRight: true,
  })
  if (!fits.ok) return fits
  if (right?.kind === 'weighed' || right?.kind === 'carrier-weighed') {
    const scale = view.rows.find((row) => row.id === right.weighing.scale)
    if (scale?.kind === 'scale') {
      const again = { fact: right, scale: { scale, isNew: false }, accept: accepted }
      const weighed = await recordWeighing(handed, view, {
        ...again,
        facts: [fact],
        notes: together,
      })
      if (!weighed.ok) return weighed
      const { recorded } = weighed.value
      return accept({ weighed: weighed.value, ...(recorded && { recorded }) })
    }
  }
  if (right?.kind === 'opened') {
    const scale = view.rows.find((row) => row.id === right.gross_when_new?.scale)
    if (scale?.kind === 'scale') {
      const opening = { opened: right, scale: { scale, isNew: false }, accept: accepted }
      const weighed = await testOpening(handed, view, opening)
      if (!weighed.ok) return weighed
      if (weighed.value !== undefined) return accept({ weighed: weighed.value })
    }
  }
  const about = [...turned.voided, ...turned.restored].flatMap(reelOf)
  const facts = right === undefined ? [fact] : [right, fact]
  const recorded = await record(handed, view, { facts }, together, about)
  return recorded.ok ? accept({ recorded: recorded.value }) : recorded
}

/** Whether a fact takes something off a reel, or all of it. */
const isTaking = (fact: FactJson): fact is DrewJson | TrimmedJson | EmptiedJson | RanDryJson =>
  takes.has(fact.kind)

const takes: ReadonlySet<FactJson['kind']> = new Set(['drew', 'trimmed', 'emptied', 'ran-dry'])

/** What takes something off a reel is held against what is believed without the wrong fact. */
const testedAgain = (
  view: ShelfView,
  fact: PutRightJson,
  right: FactJson,
  isAccepted: boolean,
): Outcome<FactJson> => {
  if (right.kind !== 'drew' && right.kind !== 'trimmed' && right.kind !== 'ran-dry') {
    return accept(right)
  }
  const without = viewOf(view.rows, [...view.facts, fact], -1, view.spreads)
  if (!without.ok) return without
  const { reel, at } = right
  if (!without.value.cards.has(reel)) return accept(right)
  if (right.kind === 'ran-dry') {
    const { tail_mm } = right
    const dry = { at, ...(tail_mm && { tail_mm }), isAccepted }
    const likely = checkRunDry(without.value, reel, dry)
    return likely.ok ? accept({ ...right, ...likely.value }) : likely
  }
  const taking = right.kind === 'drew' ? { fed: [right] } : cutOff(right)
  const held = checkHeld(without.value, reel, { at, ...taking, isAccepted })
  return held.ok ? accept({ ...right, ...held.value }) : held
}

const cutOff = ({ mass_g, length_mm }: TrimmedJson): Pick<Taking, 'mass_g' | 'length_mm'> => ({
  ...(mass_g && { mass_g }),
  ...(length_mm && { length_mm }),
})

/** A sentence for each fact that was written down in one go with the wrong one and rests on it. */
const companionsOf = ({ standing }: ShelfView, wrong: FactJson): readonly string[] =>
  standing.facts
    .filter((fact) => fact.id !== wrong.id && isCompanion(fact, wrong))
    .map(
      (fact) =>
        `Recorded with it: ${showId(fact.id)} (${fact.kind}). Put that right too if it does not hold.`,
    )

/**
 * A sentence for each waiting print of which a finished draw may have done a copy: the slate keeps no note of
 * which draw did it. None where only the reel or the moment was wrong, for the print was made all the same.
 */
const copiesDone = (
  { rows }: ShelfView,
  wrong: FactJson,
  { length_mm, stoppedAt, ...right }: PutRightInput,
): readonly string[] => {
  if (wrong.kind !== 'drew' || wrong.print === undefined || wrong.stopped_at) return []
  const isMade =
    length_mm === undefined &&
    stoppedAt === undefined &&
    (right.reel !== undefined || right.at !== undefined)
  if (isMade) return []
  return rowsOf(rows, 'waiting').flatMap(({ id, name, print, copies, done = 0 }) =>
    print !== wrong.print || done === 0
      ? []
      : `The slate counts ${done} of ${copies} ${copies === 1 ? 'copy' : 'copies'} of ${name} as printed. If this print was one of them and was not finished, let it wait again: reelreckon slate change ${id} --done ${done - 1}.`,
  )
}

/** A reel that ran dry in a print; a piece that was cut off, and measured. */
const pairs: ReadonlySet<string> = new Set(['drew ran-dry', 'measured trimmed'])

const isCompanion = (a: FactJson, b: FactJson): boolean =>
  'reel' in a &&
  'reel' in b &&
  a.recorded_at === b.recorded_at &&
  a.at === b.at &&
  (isOnePrint(a, b) || (a.reel === b.reel && pairs.has([a.kind, b.kind].toSorted().join(' '))))

/** What two tools fed of the same print. */
const isOnePrint = (a: FactJson, b: FactJson): boolean =>
  a.kind === 'drew' && b.kind === 'drew' && a.print !== undefined && a.print === b.print

/** The draw as it would have been written down with another place where its print ended. */
const stoppedAgain = (
  draw: DrewJson,
  print: PrintRowJson | undefined,
  stoppedAt: StoppedAtJson,
  shareDoubt: number | undefined,
): Outcome<DrewJson> => {
  if (print === undefined) {
    return refuse({
      code: 'stop_needs_print',
      message: 'Where it stopped is told of a print. Of a length, give what was fed.',
    })
  }
  const { families, layers } = readingOfRow(print)
  // The family that was meant is the one whose draw was written down.
  const tool = families
    .flatMap((group) => group.tools)
    .find((one) => one.tool === (draw.tool ?? 0) && one.peak_mm === draw.length_mm)
  if (tool === undefined) {
    return refuse({
      code: 'stop_needs_print',
      message:
        'Its length was put right before, and what was fed of that up to a place in the print nobody can tell. Give the length.',
    })
  }
  const stop = shareFed(tool, layers, stoppedAt, shareDoubt)
  if (!stop.ok) return stop
  const part = fedBetween(tool, draw.layers ?? {}, { ranDry: false, stop: stop.value })
  if (!part.ok) return part
  // How long the whole took was told of a print that finished.
  const { timed: _timed, ...rest } = draw
  return accept({ ...rest, stopped_at: stoppedAt, share: part.value })
}

/** What was wrong happened when it did; that it is put right is said now. */
const saidOf = ({ id, note }: PutRightInput): Said => ({
  ...(id !== undefined && { id }),
  ...(note !== undefined && { note }),
})

/** Facts that hold no more, or again, where one is put right. */
interface Turned {
  readonly voided: readonly FactJson[]
  readonly restored: readonly FactJson[]
}

/** What comes of a fact that holds from now on, or does not: a put-right turns others over. */
const turnedBy = (view: ShelfView, id: string | undefined, holds: boolean): Turned => {
  const found = id === undefined ? undefined : view.facts.find((fact) => fact.id === id)
  if (found === undefined) return { voided: [], restored: [] }
  if (found.kind !== 'put-right') {
    return holds ? { voided: [], restored: [found] } : { voided: [found], restored: [] }
  }
  const wrong = turnedBy(view, found.voids, !holds)
  const instead = turnedBy(view, found.instead, holds)
  return {
    voided: [...wrong.voided, ...instead.voided],
    restored: [...wrong.restored, ...instead.restored],
  }
}

/** The fact with what is right in it, or none where it is only declared void. */
const insteadOf = (
  handed: HandedIn,
  view: ShelfView,
  wrong: FactJson,
  {
    mass_g,
    lastPlace_g,
    extra_g,
    length_mm,
    reel,
    make,
    at,
    stoppedAt,
    shareDoubt,
    ...ofOpening
  }: PutRightInput,
  print: PrintRowJson | undefined,
): Outcome<FactJson | undefined> => {
  const { label_net_g, colour, part_used, price, lot } = ofOpening
  const ofMany = [mass_g, extra_g, length_mm, stoppedAt, reel, make, at]
  const told = [...ofMany, label_net_g, colour, part_used, price, lot]
  if (told.every((part) => part === undefined)) {
    return accept(undefined)
  }
  if (wrong.kind === 'put-right') {
    return refuse({
      code: 'nothing_instead',
      message: `${showId(wrong.id)} is itself a put-right, and nothing holds in its place but what it had put right. Put it right without a figure; then put ${showId(wrong.voids)} right with the right one.`,
      received: wrong.kind,
    })
  }
  const { recorded_at } = factCommon(handed, {})
  // By how much the wrong one was off says nothing of the right one: it is tested again.
  const { accepted_off: _off, ...kept } = { accepted_off: undefined, ...wrong }
  let right: FactJson = {
    ...kept,
    id: newFactId(handed),
    recorded_at,
    ...(at !== undefined && { at }),
  }
  if (mass_g !== undefined) {
    const changed = withMass(view, right, mass_g, lastPlace_g)
    if (changed === undefined) return nothingInstead(wrong, 'mass')
    right = changed
  }
  if (extra_g !== undefined) {
    const changed = withWeighing(right, (seen) => withExtra(seen, extra_g))
    if (changed === undefined) return nothingInstead(wrong, 'mass beside it')
    right = changed
  }
  if (length_mm !== undefined) {
    if (right.kind === 'trimmed') {
      const { mass_g: _mass, ...rest } = right
      right = { ...rest, length_mm }
    } else if (right.kind === 'drew') {
      // A told length is what was fed, wherever the print stopped.
      const { share: _share, stopped_at: _stop, layers: _layers, ...rest } = right
      right = { ...rest, length_mm: length_mm.value }
    } else if (right.kind === 'ran-dry') {
      right = { ...right, tail_mm: length_mm }
    } else return nothingInstead(wrong, 'length')
  }
  if (stoppedAt !== undefined) {
    if (right.kind !== 'drew') return nothingInstead(wrong, 'layer')
    const stopped = stoppedAgain(right, print, stoppedAt, shareDoubt)
    if (!stopped.ok) return stopped
    right = stopped.value
  }
  if (reel !== undefined) {
    const found = findReel(view, reel)
    if (!found.ok) return found
    const ofReel = found.value
    if (right.kind === 'carrier-weighed') {
      // Its make and its size are the reel's.
      const { label_net_g: _label, ...carrier } = right
      right = { ...carrier, reel: ofReel, make: view.cards.get(ofReel)!.opened.make }
    } else if (!('reel' in right) || right.kind === 'opened') return nothingInstead(wrong, 'reel')
    else right = { ...right, reel: ofReel }
  }
  if (make !== undefined) {
    const found = findRow(view.rows, 'make', make)
    if (!found.ok) return found
    const isOfReel = right.kind === 'carrier-weighed' && right.reel !== undefined
    if (!('make' in right) || isOfReel) return nothingInstead(wrong, 'make')
    right = { ...right, make: found.value.id }
    if (right.kind === 'carrier-weighed') {
      const size = carrierSize(view, found.value, label_net_g ?? right.label_net_g)
      if (!size.ok) return size
      right = { ...right, ...size.value }
    }
  }
  const ofMake = right.kind === 'carrier-weighed' && right.reel === undefined ? right : undefined
  if (ofMake && label_net_g !== undefined) right = { ...ofMake, label_net_g }
  for (const [what, part] of [
    ['label', ofMake ? undefined : label_net_g],
    ['colour', colour],
    ['mark of being part-used', part_used],
    ['price', price],
    ['lot', lot],
  ] as const) {
    if (part !== undefined && right.kind !== 'opened') return nothingInstead(wrong, what)
  }
  return accept(right.kind === 'opened' ? withOpening(right, ofOpening) : right)
}

const withOpening = (
  { part_used: wasUsed, ...opened }: OpenedJson,
  { label_net_g, colour, part_used = wasUsed, price, lot }: Partial<PutRightInput>,
): OpenedJson => ({
  ...opened,
  ...(label_net_g !== undefined && { label_net_g }),
  ...(colour && { colour }),
  ...(price && { price }),
  ...(lot !== undefined && { lot }),
  ...(part_used === true && { part_used }),
})

/**
 * A weighing's figure is taken as `weighingOf` does on its scale, and what else stood there stays; of a
 * piece cut off, as `withTypedDoubt` does.
 */
const withMass = (
  { rows }: ShelfView,
  fact: FactJson,
  { value, u }: MeasuredJson,
  lastPlace_g = 0,
): FactJson | undefined => {
  const again = ({ scale, extra_g }: WeighingJson): WeighingJson => {
    const row = rowsOf(rows, 'scale').find(({ id }) => id === scale)
    const told = {
      reading_g: value,
      ...(u > 0 && { u_g: u }),
      lastPlace_g,
      ...(extra_g && { extra_g }),
    }
    return weighingOf(told, row ?? { id: scale, ...usualScale })
  }
  if (fact.kind !== 'trimmed') return withWeighing(fact, again)
  const { length_mm: _length, ...rest } = fact
  return { ...rest, mass_g: { value, u: u > 0 ? u : lastPlace_g / Math.sqrt(12) } }
}

/** The fact with its weighing changed; none where it has no weighing to put right. */
const withWeighing = (
  fact: FactJson,
  change: (weighing: WeighingJson) => WeighingJson,
): FactJson | undefined => {
  if (fact.kind === 'weighed' || fact.kind === 'carrier-weighed') {
    return { ...fact, weighing: change(fact.weighing) }
  }
  return fact.kind === 'opened' && fact.gross_when_new
    ? { ...fact, gross_when_new: change(fact.gross_when_new) }
    : undefined
}

/** The same reading, with something else beside, or nothing. */
const withExtra = (
  { extra_g: _extra, ...weighing }: WeighingJson,
  extra_g: MeasuredJson,
): WeighingJson => ({ ...weighing, ...(extra_g.value !== 0 && { extra_g }) })

const nothingInstead = (fact: FactJson, what: string): ReturnType<typeof refuse> =>
  refuse({
    code: 'nothing_instead',
    message:
      fact.kind === 'opened'
        ? `This opening has no ${what} to put right. What is right of it can be told: the make, the label, the colour, the price, the lot, whether it was part-used, and what was weighed when new.`
        : `A fact of the kind ${fact.kind} has no ${what} to put right. Put it right without one, then record what is right.`,
    received: fact.kind,
  })
