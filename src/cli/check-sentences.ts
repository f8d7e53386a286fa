import type { Layers } from '../print/index.ts'
import { formatLength, formatMass, grams, measured } from '../units/index.ts'
import type { RunDryPoint, ToolVerdict } from '../verdict/index.ts'
import { sayHeight, sayLength, sayShare } from './say.ts'

/** A place in the print: layer and height, or height alone in a spiral, and the share. */
const place = (
  { layer, height_mm, share, draw_mm }: RunDryPoint,
  layers: Layers | undefined,
): string => {
  const percent = sayShare(share)
  if (layer === null || height_mm === null || layers === undefined) {
    return `${sayLength(draw_mm)} (${percent} of the print)`
  }
  if (layer === 0) return `the start, before the first layer (${percent})`
  const height = sayHeight(height_mm)
  return layers.spiral ? `${height} (${percent})` : `layer ${layer} (${height}, ${percent})`
}

const missing = ({ margin: { value, u } }: ToolVerdict): string =>
  formatMass(measured(grams(0 - value), u))

/**
 * The answer in one to three sentences, without the word and the chance.
 *
 * @param who - what the sentences are about, as "The reel" or "The reel of T1"
 */
export const answerSentences = (
  found: ToolVerdict,
  layers: Layers | undefined,
  who: string,
): readonly string[] => {
  const { early, likely, late } = found.runDry
  if (found.verdict === 'enough') {
    return [`${who} finishes it; ${formatMass(found.leftOver)} stay on it.`]
  }
  const sentences: string[] = []
  // Where two places lie in one layer, the second tells only how far the print is.
  const then = (point: RunDryPoint, before: RunDryPoint): string =>
    point.layer !== null && point.layer === before.layer && layers?.spiral === false
      ? `${sayShare(point.share)} of the print`
      : place(point, layers)
  if (found.verdict === 'short') {
    sentences.push(`${who} is ${missing(found)} short.`)
    if (early && late) {
      const about = likely ? `, most likely about ${then(likely, early)}` : ''
      sentences.push(
        `It runs dry between ${place(early, layers)} and ${then(late, early)}${about}.`,
      )
    } else if (likely) {
      sentences.push(`It runs dry about ${place(likely, layers)}.`)
    }
  } else {
    sentences.push(`${who} is too close to call: the margin is ${formatMass(found.margin)}.`)
    if (early) {
      const about = likely ? `, and most likely does about ${then(likely, early)}` : ''
      sentences.push(`It may run dry from ${place(early, layers)} on${about}.`)
    }
  }
  return sentences
}

/** Shown wherever a change of reels is advised. */
const changeCaution =
  'Take care: at a change the nozzle and bed are hot and the machine may move. Stay with it, and go by its maker’s instructions.'

/** Where changing reels is still safe, for a print that may not finish; with its caution. */
export const changeSentences = (
  found: ToolVerdict,
  layers: Layers | undefined,
): readonly string[] => {
  if (found.verdict === 'enough' || layers === undefined || layers.count === 0) return []
  const change = found.changeBefore
  if (change === null) {
    return [
      'No layer end is safe for a change: not even the first is sure to be reached. Start with another reel.',
    ]
  }
  if (change.layer >= layers.count) return []
  const height = change.height_mm === null ? '' : sayHeight(change.height_mm)
  const where = layers.spiral ? height : `after layer ${change.layer} (${height})`
  return [`Last safe change of reels: ${where}.`, changeCaution]
}

/** How long the reel lasts, or nothing where there is no limit to be told. */
export const lasts = ({ availableDraw_mm: { value, u } }: ToolVerdict): string | undefined =>
  Number.isFinite(value) && Number.isFinite(u) ? formatLength(measured(value, u)) : undefined
