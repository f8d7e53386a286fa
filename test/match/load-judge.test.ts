import { expect, it } from 'vitest'
import { SeededRandom } from '../../demo/seeded-random.ts'
import { compileSlate } from '../../src/match/compiled-slate.ts'
import { loadJudge } from '../../src/match/load-judge.ts'
import { randomSlate } from './random-slate.ts'

it.each(Array.from({ length: 20 }, (_, i) => i + 1))(
  'slate %i: the mean of what is left is what is left without less what each piece takes',
  (seed) => {
    const random = new SeededRandom(seed)
    const slate = compileSlate(randomSlate(random))
    for (const reel of slate.reels.keys()) {
      const judge = loadJudge(slate, reel)
      const load = slate.copies.flatMap(({ tasks }) => {
        const pieces = slate.piecesOf(tasks[0]!.place)
        return random.uniform() < 0.7 ? [pieces[Math.floor(random.between(0, pieces.length))]!] : []
      })
      expect(judge.meanLeft(load)).toBeCloseTo(judge.left(load).value, 9)
    }
  },
)
