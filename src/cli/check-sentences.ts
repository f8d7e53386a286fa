import { changeCaution, disagreement } from '../contract/index.ts'
import type { Layers } from '../print/index.ts'
import { grams, measured, millimetres } from '../units/index.ts'
import { callOf, type RunDryPoint, type ToolVerdict } from '../verdict/index.ts'
import { sayHeight, sayLength, sayMass, sayMeasuredLength, sayShare } from './say.ts'

/** A place in the print: layer and height, or height alone in a spiral, and the share. */
const place = (
  { layer, height_mm, share, draw_mm }: RunDryPoint,
  layers: Layers | undefined,
): string => {
  const percent = sayShare(share)
  if (layer === null || height_mm === null || layers === undefined) {
    return `${sayLength(draw_mm)} (${percent} of the print)`
  }
  if (layer === 0) return `the very start, before the first layer (${percent})`
  const height = sayHeight(height_mm)
  return layers.spiral ? `${height} (${percent})` : `layer ${layer} (${height}, ${percent})`
}

/** From where on a reel may run dry. */
const from = (early: RunDryPoint, layers: Layers | undefined): string => {
  if (early.layer === 0) return 'before the first layer is begun'
  return early.draw_mm === 0 ? 'at once' : `from ${place(early, layers)} on`
}

const missing = ({ margin: { value, u } }: ToolVerdict): string =>
  sayMass(measured(grams(0 - value), u))

const lower = (who: string): string =>
  who.replace(/^[TR](?=he |eel )/, (letter) => letter.toLowerCase())

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
  if (found.contradicting.length > 0) {
    return [
      disagreement(
        lower(who),
        found.contradicting.map(({ what }) => what),
      ),
    ]
  }
  if (found.verdict === 'enough') {
    return [`${who} finishes it; ${sayMass(found.leftOver)} stay on it.`]
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
    const why =
      callOf(found.chance, found.confidence) === 'enough' && found.some < found.confidence
        ? `may be empty: its carrier is not known well enough to tell, and the chance takes it that something is left.`
        : `is too close to call: the margin is ${sayMass(found.margin)}.`
    sentences.push(`${who} ${why}`)
    if (early) {
      const about = likely ? `, and most likely does about ${then(likely, early)}` : ''
      sentences.push(`It may run dry ${from(early, layers)}${about}.`)
    }
  }
  return sentences
}

/** Where changing reels is still safe, for a print that may not finish; with its caution. */
export const changeSentences = (
  found: ToolVerdict,
  layers: Layers | undefined,
): readonly string[] => {
  if (found.verdict === 'enough' || found.contradicting.length > 0) return []
  if (layers === undefined || layers.count === 0) return []
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
export const lasts = ({ availableDraw_mm: { value, u } }: ToolVerdict): string | undefined => {
  if (!Number.isFinite(value) || !Number.isFinite(u)) return undefined
  // Near an empty reel the spread is no longer even to both sides.
  return u > value
    ? `0 to ${sayLength(value + u)}`
    : sayMeasuredLength(measured(millimetres(value), u))
}
