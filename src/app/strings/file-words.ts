import type { Finding } from '../../print/index.ts'
import type { FileAnswers } from '../reading/worker-message.ts'

const count = new Intl.NumberFormat('en-GB')

const answerWords = ({ eUnit, eMode, diameter_mm, madeFor_mm }: FileAnswers): string => {
  if (eUnit !== undefined) return eUnit === 'mm3' ? 'E is mm³' : 'E is mm'
  if (eMode !== undefined) return eMode === 'relative' ? 'E is relative' : 'E is absolute'
  if (diameter_mm !== undefined) return `I print with ${diameter_mm} mm`
  return `It is made for ${madeFor_mm} mm`
}

/** Words of what was found in a print file. */
export const fileWords = {
  lost: 'The file can not be read any more.',
  says: 'About the file',
  found: ({ message, byte, line, count: times }: Finding): string => {
    if (byte === 0 && times === 1) return message
    const often = times > 1 ? `, ${count.format(times)} times` : ''
    return `${message} (Line ${count.format(line)}${often}.)`
  },
  notes: (many: number): string =>
    many === 1 ? 'One more thing about the file' : `${many} more things about the file`,
  answered: (given: FileAnswers): string =>
    `You said: ${Object.entries(given)
      .map(([key, value]) => answerWords({ [key]: value }))
      .join(', ')}.`,
  askAgain: 'Answer otherwise',
  answer: (answers: FileAnswers): string => answerWords(answers),
} as const
