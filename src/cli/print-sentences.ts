import type { Layers } from '../print/index.ts'
import { weakest } from '../service/index.ts'
import type { PrintVerdict } from '../verdict/index.ts'
import { answerSentences } from './check-sentences.ts'
import { sayMass } from './say.ts'
import type { ToolFound } from './tool-found.ts'

/** For several tools the sentence is about the print: a reel that is sure by itself may not decide. */
export const printSentences = (
  { verdict }: PrintVerdict,
  tools: readonly ToolFound[],
  layers: Layers | undefined,
): readonly string[] => {
  const deciding = weakest(tools)
  const doubtful = tools.find((each) => each.verdict.contradicting.length > 0)
  const spoken = verdict === 'close' && doubtful ? doubtful : deciding
  if (spoken.verdict.verdict !== 'enough') {
    return answerSentences(spoken.verdict, layers, `T${spoken.tool}’s reel`)
  }
  const scarcest = `T${deciding.tool}’s`
  const left = sayMass(deciding.verdict.leftOver)
  return verdict === 'enough'
    ? [`All reels finish it; on ${scarcest}, the one nearest to its end, ${left} stay.`]
    : [
        `Each reel by itself is sure enough, but that all of them last is not. The nearest to its end is ${scarcest}: ${left} would stay on it.`,
      ]
}
