import type { ClockJson } from '../contract/index.ts'
import type { Layers } from '../print/index.ts'
import type { PrintTimes } from '../service/index.ts'
import { formatDuration, formatHour, formatWhen } from '../units/index.ts'
import { dryTimes, type Reached, reachedAt, type ToolVerdict } from '../verdict/index.ts'
import { sayHeight } from './say.ts'

/** People are asleep from half past eleven to half past six. Common practice, no source. */
const isNight = (at: number): boolean => {
  const moment = new Date(at)
  const hour = moment.getHours() + moment.getMinutes() / 60
  return hour >= 23.5 || hour < 6.5
}

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

/** How long the print takes, or when it ends. */
export const timeOfPrint = (times: PrintTimes, now: number): string => {
  const reached = reachedAt(times)
  const { start } = times
  if (start === undefined) return `The print takes about ${sayTaking(reached)}.`
  const at = (after_s: number): number => start + 1000 * after_s
  const doubt = doubtOf(reached)
  const [early, late] = [reached.early_s, reached.late_s].map((time) => formatHour(at(time), doubt))
  const begun =
    start <= now ? `Started ${formatWhen(start, now)}` : `Begun ${formatWhen(start, now)}`
  return `${begun}, it ends ${formatWhen(at(reached.likely_s), now, { doubt_s: doubt })} (${early} to ${late}).`
}

/** When the reel may run dry. */
const drying = (found: ToolVerdict, times: PrintTimes, now: number): string | undefined => {
  const dry = dryTimes(times, found.runDry)
  if (dry === null || dry.early_s === null) return undefined
  const { early_s, likely_s } = dry
  const { start } = times
  const doubt = likely_s === null ? 0.1 * early_s : (likely_s - early_s) / 1.65
  const may = found.verdict === 'short' ? 'It runs dry' : 'It may run dry'
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

/** When the last safe change comes, and where that is at night, the last layer end before bed. */
const changing = (
  { changeBefore }: ToolVerdict,
  times: PrintTimes,
  layers: Layers | undefined,
  now: number,
): string | undefined => {
  const planned = changeBefore?.planned_s ?? null
  if (changeBefore === null || planned === null) return undefined
  const reached = reachedAt(times, planned)
  const doubt = doubtOf(reached)
  const { layer, height_mm: height } = changeBefore
  // A spiral has no layers that a person could tell apart.
  const isSpiral = layers?.spiral === true && height !== null
  const what = isSpiral ? `Height ${sayHeight(height)} is reached` : `Layer ${layer} ends`
  const { start } = times
  if (start === undefined) {
    return `${what} about ${sayTaking(reached)} after the start.`
  }
  const at = start + 1000 * reached.likely_s
  const when = `${what} ${formatWhen(at, now, { doubt_s: doubt })}`
  const bedtime = layerBeforeBed(times, layers, changeBefore.layer, start)
  if (!isNight(at) || bedtime === undefined) return `${when}.`
  const bed = start + 1000 * bedtime.reached.likely_s
  return `${when}, so change it before you go to bed: after layer ${bedtime.layer}, ${formatWhen(bed, now, { doubt_s: doubtOf(bedtime.reached) })}.`
}

/** The last layer that ends before the night in which the last safe change would come. */
const layerBeforeBed = (
  times: PrintTimes,
  layers: Layers | undefined,
  last: number,
  start: number,
): { readonly layer: number; readonly reached: Reached } | undefined => {
  const ends = layers?.endTime_s
  if (ends === undefined || isNight(start)) return undefined
  for (let layer = last - 1; layer >= 1; layer--) {
    const reached = reachedAt(times, ends[layer - 1] ?? 0)
    if (!isNight(start + 1000 * reached.late_s)) return { layer, reached }
  }
  return undefined
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
