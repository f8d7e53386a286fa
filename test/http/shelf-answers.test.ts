import { expect, test } from 'vitest'
import { ShelfAnswers } from '../../src/http/shelf-answers.ts'
import { shelfView } from '../../src/service/index.ts'
import { bench, valueOf } from '../shelf-bench.ts'

const about = (length_mm: number) => ({ asked: { length_mm }, print: undefined })
const bytes = new Uint8Array([123, 125])

test('what is asked a second time is kept, for the view it was asked of', async () => {
  const { store } = await bench()
  const view = valueOf(await shelfView(store))
  const answers = new ShelfAnswers()
  answers.keep(view, about(1), bytes)
  expect(answers.find(view, about(1))).toBe(undefined)
  answers.keep(view, about(1), bytes)
  expect(answers.find(view, about(1))).toBe(bytes)
  expect(answers.find(view, about(2))).toBe(undefined)
  expect(answers.find({ ...view }, about(1))).toBe(undefined)
})

test('it stays small, whatever is asked', async () => {
  const { store } = await bench()
  const view = valueOf(await shelfView(store))
  const answers = new ShelfAnswers()
  for (let length = 1; length <= 500; length++) {
    answers.keep(view, about(length), bytes)
    answers.keep(view, about(length), bytes)
  }
  const kept = Array.from({ length: 500 }, (_, at) => answers.find(view, about(at + 1)))
  expect(kept.filter((answer) => answer !== undefined).length).toBeLessThanOrEqual(100)
})
