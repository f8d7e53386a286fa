import { expect, test } from 'vitest'
import {
  answered,
  answersGiven,
  answersTo,
  unanswered,
} from '../../src/app/check/file-questions.ts'

const question = 'e_looks_made_for_other_diameter'

test('a file that looks made for the other diameter is asked about either way', () => {
  expect(answersTo(question, {})).toEqual([{ diameter_mm: 2.85 }, { madeFor_mm: 1.75 }])
  expect(answersTo(question, { diameter_mm: 2.85 })).toEqual([
    { diameter_mm: 1.75 },
    { madeFor_mm: 2.85 },
  ])
  expect(answersTo('families_differ', {})).toEqual([])
})

test('an answer can be taken back, and the others stay', () => {
  const motion = {}
  const answers = { motion, eUnit: 'mm', diameter_mm: 2.85, madeFor_mm: 2.85 } as const
  const given = answersGiven(answers)
  expect(given).toEqual([{ eUnit: 'mm' }, { diameter_mm: 2.85, madeFor_mm: 2.85 }])
  expect(unanswered(answers, { diameter_mm: 1.75 })).toEqual({ motion, eUnit: 'mm' })
  expect(unanswered(answers, given[0]!)).toEqual({ motion, diameter_mm: 2.85, madeFor_mm: 2.85 })
  expect(answersGiven({ motion })).toEqual([])
})

test('what the file was made for is asked anew with another diameter, and else kept beside it', () => {
  const thick = answered({ eUnit: 'mm', madeFor_mm: 1.75 }, { diameter_mm: 2.85 })
  expect(thick).toEqual({ eUnit: 'mm', diameter_mm: 2.85 })
  expect(answered(thick, { madeFor_mm: 2.85 })).toEqual({ ...thick, madeFor_mm: 2.85 })
})
