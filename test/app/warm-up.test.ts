import { expect, test } from 'vitest'
import { warmUp } from '../../src/app/reading/warm-up.ts'

test('the warm-up is a print that is read to its end more than once, in several steps', () => {
  const warming = warmUp()
  let steps = 0
  let step = warming.next()
  for (; step.done !== true; step = warming.next()) steps++
  expect(step.value).toMatchObject({ ok: true })
  const [print] = step.value.ok ? step.value.value.prints : []
  const layers = print?.reading.layers.count ?? 0
  expect(layers).toBeGreaterThan(5)
  expect(steps / layers).toBeGreaterThanOrEqual(2)
  expect(print?.reading.silhouette).toBeDefined()
})
