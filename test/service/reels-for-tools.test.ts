import { expect, test } from 'vitest'
import { reelsForTools } from '../../src/service/reels-for-tools.ts'

test.each([
  [2, 'The print feeds from T0, and there is one reel more than that.'],
  [4, 'The print feeds from T0, and there are more reels than that.'],
])('of %i reels for one tool', (count, message) => {
  const answer = reelsForTools(
    [0],
    Array.from({ length: count }, () => ({})),
  )
  expect(answer).toMatchObject({ refusal: { code: 'reel_without_tool', message } })
})
