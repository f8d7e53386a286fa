import type { ClockJson } from '../contract/index.ts'
import type { Layers } from '../print/index.ts'
import { beginOf, earlierChanges, type PrintTimes, type TwoReels } from '../service/index.ts'
import { changeAtNight, formatBetween, formatDuration, formatWhen } from '../units/index.ts'
import {
  type ChangePoint,
  dryTimes,
  type Reached,
  reachedAt,
  type ToolVerdict,
} from '../verdict/index.ts'
import { sayHeight } from './say.ts'

const doubtOf = ({ early_s, late_s }: Reached): number => (late_s - early_s) / 3.3

/** `6 h 10 min (5 h 15 min to 7 h 20 min)`. */
export const sayTaking = (reached: Reached): string => {
  const doubt = doubtOf(reached)
  const [likely, early, late] = [reached.likely_s, reached.early_s, reached.late_s].map((time) =>
    formatDuration(time, doubt),
  )
  return early === late ? `${likely}` : `${likely} (${early} to ${late})`
}

/** The same of a time on the wire that is known. */
export const sayClock = ({ early_s, likely_s, late_s }: ClockJson): string =>
  sayTaking({ early_s: early_s ?? 0, likely_s: likely_s ?? 0, late_s: late_s ?? 0 })

/** The likeliest alone, as sure as it is: `3 h 40 min`. */
export const sayBriefly = ({ early_s, likely_s, late_s }: ClockJson): string =>
  formatDuration(likely_s ?? 0, ((late_s ?? 0) - (early_s ?? 0)) / 3.3)

/** How long the print takes, or when it ends. */
export const timeOfPrint = (times: PrintTimes, now: number): string => {
  const { start } = times
  if (start === undefined) return `The print takes about ${sayTaking(reachedAt(times))}.`
  const begun =
    start <= now ? `Started ${formatWhen(start, now)}` : `Begun ${formatWhen(start, now)}`
  return `${begun}, it ends ${placeInBrief(times, times.time.total_s, now)}.`
}

/** When the reel may run dry: from when to when, or only from when on where it may last past the end. */
const drying = (found: ToolVerdict, times: PrintTimes, now: number): string | undefined => {
  const dry = dryTimes(times, found.runDry)
  if (dry === null || dry.early_s === null) return undefined
  const { early_s, likely_s, late_s } = dry
  const { start } = times
  const may = found.verdict === 'short' ? 'It runs dry' : 'It may run dry'
  if (likely_s !== null && late_s !== null) {
    return `${may} ${placeOf(times, { early_s, likely_s, late_s }, now)}.`
  }
  const doubt = likely_s === null ? 0.1 * early_s : (likely_s - early_s) / 1.65
  if (start === undefined) {
    const from = `${may} from ${formatDuration(early_s, doubt)} on after the start`
    return likely_s === null
      ? `${from}.`
      : `${from}, most likely after ${formatDuration(likely_s, doubt)}.`
  }
  const at = (after_s: number): number => start + 1000 * after_s
  const from = `${may} ${formatWhen(at(early_s), now, { doubt_s: doubt, word: 'from' })} on`
  return likely_s === null
    ? `${from}.`
    : `${from}, most likely ${formatWhen(at(likely_s), now, { doubt_s: doubt })}.`
}

/** When the last safe change comes, and where that is at night, what to do about it. */
const changing = (
  { changeBefore, runDry }: ToolVerdict,
  times: PrintTimes,
  layers: Layers | undefined,
  now: number,
): string | undefined => {
  const planned = changeBefore?.planned_s ?? null
  if (changeBefore === null || planned === null) return undefined
  const reached = reachedAt(times, planned)
  const { layer, height_mm: height } = changeBefore
  // A spiral has no layers that a person could tell apart.
  const isSpiral = layers?.spiral === true && height !== null
  const what = isSpiral ? `Height ${sayHeight(height)} is reached` : `Layer ${layer} ends`
  const when = `${what} ${placeInBrief(times, planned, now)}`
  const dry_s = dryTimes(times, runDry)?.early_s ?? null
  // The earliest end of the reel is that of a fast print, the likely end of the layer that of a usual one.
  const go =
    dry_s === null || dry_s > reached.late_s
      ? ''
      : ` A slower print comes later to both, so go by the ${isSpiral ? 'height' : 'layer'}, not by the clock.`
  return `${when}${atNight(changeBefore, reached, times, now)}.${go}`
}

/** What to do where the last safe change comes at night: the last layer end before bed, or none. */
const atNight = (
  change: ChangePoint,
  { likely_s }: Reached,
  times: PrintTimes,
  now: number,
): string => {
  const { start } = times
  if (start === undefined) return ''
  const found = changeAtNight(likely_s, earlierChanges(times, change), start, now)
  if (found === null) return ''
  if (found === 'be up') return ', in the night: somebody has to be up for it'
  if (found === 'begin otherwise') {
    return ', in the night: begin it in the morning or with a reel that lasts, or be up for it'
  }
  const when = formatWhen(start + 1000 * found.likely_s, now, { doubt_s: doubtOf(found) })
  return `, so change it before you go to bed: after layer ${found.layer}, ${when}`
}

/**
 * What is to be said of time: when the print ends, and for one that may not finish when the reel runs
 * dry and when the last safe change comes.
 *
 * @param now - ms since 1970
 */
export const timeSentences = (
  found: ToolVerdict,
  times: PrintTimes,
  layers: Layers | undefined,
  now: number,
): readonly string[] => {
  const sentences = [timeOfPrint(times, now)]
  if (found.verdict === 'enough' || found.contradicting.length > 0) return sentences
  const dry = drying(found, times, now)
  if (dry !== undefined) sentences.push(dry)
  const isChange = layers !== undefined && (found.changeBefore?.layer ?? Infinity) < layers.count
  const change = isChange ? changing(found, times, layers, now) : undefined
  if (change !== undefined) sentences.push(change)
  return sentences
}

/** What of a judged print has a time: where its reel runs dry and is changed, or where two take turns. */
export interface TimedPlaces {
  readonly found?: ToolVerdict
  readonly layers: Layers | undefined
  readonly two?: TwoReels | null
}

/**
 * The times of a print in a line or two of a table: how long it takes, or when it ends, and for one that
 * may not finish when its reel runs dry and when the last safe change comes.
 */
export const timesInBrief = (
  times: PrintTimes,
  { found, layers, two = null }: TimedPlaces,
  now: number,
): string => {
  const parts = [takingInBrief(times, now)]
  if (two !== null) {
    const at = layers?.endTime_s?.[two.afterLayer - 1]
    if (at !== undefined) {
      parts.push(
        `with two reels the change, after layer ${two.afterLayer}, comes ${placeInBrief(times, at, now)}`,
      )
    }
  }
  if (found === undefined || found.verdict === 'enough' || found.contradicting.length > 0) {
    return `${parts.join('; ')}.`
  }
  const dry = drying(found, times, now)
  if (dry !== undefined) parts.push(dry.charAt(0).toLowerCase() + dry.slice(1, -1))
  const { changeBefore: change } = found
  if (change !== null && change.planned_s !== null && change.layer < (layers?.count ?? 0)) {
    const what =
      layers?.spiral === true && change.height_mm !== null
        ? `at ${sayHeight(change.height_mm)}`
        : `after layer ${change.layer}`
    parts.push(`the last safe change, ${what}, comes ${placeInBrief(times, change.planned_s, now)}`)
  }
  return `${parts.join('; ')}.`
}

/** `takes about 3 h 40 min (…)`, or `ends at about 01:15 (…)`. */
export const takingInBrief = (times: PrintTimes, now: number): string => {
  const { start, before, time } = times
  if (start === undefined) return `takes about ${sayTaking(reachedAt(times))}`
  const doubt_s = doubtOf(reachedAt(times))
  const begun =
    before === undefined ? '' : `begins ${formatWhen(beginOf(times) ?? start, now, { doubt_s })}, `
  return `${begun}ends ${placeInBrief(times, time.total_s, now)}`
}

/** The likeliest alone: `at about 23:10`, `after about 3 h 25 min`. */
export const momentInBrief = (times: PrintTimes, planned_s: number, now: number): string => {
  const { start } = times
  const reached = reachedAt(times, planned_s)
  const doubt_s = doubtOf(reached)
  return start === undefined
    ? `after about ${formatDuration(reached.likely_s, doubt_s)}`
    : formatWhen(start + 1000 * reached.likely_s, now, { doubt_s })
}

/** When a place of the print is reached: `at about 23:10 (22:50 to 23:35)`. */
export const placeInBrief = (times: PrintTimes, planned_s: number, now: number): string =>
  placeOf(times, reachedAt(times, planned_s), now)

const placeOf = ({ start }: PrintTimes, reached: Reached, now: number): string => {
  if (start === undefined) return `about ${sayTaking(reached)} after the start`
  const doubt_s = doubtOf(reached)
  const at = (after_s: number): number => start + 1000 * after_s
  const [early, likely, late] = [at(reached.early_s), at(reached.likely_s), at(reached.late_s)]
  return `${formatWhen(likely, now, { doubt_s })} (${formatBetween([early, late], likely, now, doubt_s)})`
}
