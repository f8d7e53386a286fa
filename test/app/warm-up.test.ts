import { expect, test } from 'vitest'
import { warmUp } from '../../src/app/reading/warm-up.ts'

test('the warm-up is a print that is read to its end, in several steps', () => {
  const warming = warmUp()
  let steps = 0
  let step = warming.next()
  for (; step.done !== true; step = warming.next()) steps++
  expect(steps).toBeGreaterThan(5)
  expect(step.value).toMatchObject({ ok: true })
  const [print] = step.value.ok ? step.value.value.prints : []
  expect(print?.reading.layers.count).toBe(steps)
  expect(print?.reading.silhouette).toBeDefined()
})
