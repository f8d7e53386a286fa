import type { FileAnswers } from '../reading/worker-message.ts'

/** Filament comes in two nominal diameters, mm. */
const usual_mm = 1.75
const other_mm = 2.85

/** Of the two nominal diameters the one that is not meant, mm. */
export const otherDiameter = (diameter_mm: number): number =>
  diameter_mm < (usual_mm + other_mm) / 2 ? other_mm : usual_mm

/** Keys of the answers to each question: who answers one anew says nothing of the others. */
const keysOf: Readonly<Record<string, readonly (keyof FileAnswers)[]>> = {
  e_looks_like_mm3: ['eUnit'],
  e_looks_relative: ['eMode'],
  e_looks_made_for_other_diameter: ['diameter_mm', 'madeFor_mm'],
}

/** Answers that a person can give to a question of a file, by its code; none where it is asked elsewhere. */
export const answersTo = (
  question: string,
  { diameter_mm: now = usual_mm }: FileAnswers,
): readonly FileAnswers[] => {
  switch (question) {
    case 'e_looks_like_mm3':
      return [{ eUnit: 'mm3' }, { eUnit: 'mm' }]
    case 'e_looks_relative':
      return [{ eMode: 'relative' }, { eMode: 'absolute' }]
    case 'e_looks_made_for_other_diameter':
      return [{ diameter_mm: otherDiameter(now) }, { madeFor_mm: now }]
    default:
      return []
  }
}

const only = (answers: FileAnswers, keep: (key: string) => boolean): FileAnswers =>
  Object.fromEntries(Object.entries(answers).filter(([key]) => keep(key)))

/** What was answered so far, question by question. */
export const answersGiven = (answers: FileAnswers): readonly FileAnswers[] =>
  Object.values(keysOf)
    .map((keys) => only(answers, (key) => keys.some((one) => one === key)))
    .filter((given) => Object.keys(given).length > 0)

/** As if the questions of these answers had not been answered. */
export const unanswered = (answers: FileAnswers, given: FileAnswers): FileAnswers => {
  const gone = new Set<string>(
    Object.values(keysOf)
      .filter((keys) => keys.some((key) => key in given))
      .flat(),
  )
  return only(answers, (key) => !gone.has(key))
}

/** With one more answer. What a file was made for was said of the diameter before. */
export const answered = (answers: FileAnswers, more: FileAnswers): FileAnswers => ({
  ...(more.diameter_mm === undefined ? answers : unanswered(answers, more)),
  ...more,
})
