import type { PrintOfFile } from '../print/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import { taken } from './taken.ts'

/**
 * The print of a file that is meant: the only one, or the member of a zip that is named.
 *
 * @returns `member_missing`, `member_unknown`
 */
export const findPrint = (
  prints: readonly PrintOfFile[],
  member: string | undefined,
): Outcome<PrintOfFile> => {
  const found =
    member === undefined
      ? prints
      : prints.filter(({ name }) => name === member || name?.split('/').at(-1) === member)
  const [one, ...more] = found
  if (one !== undefined && more.length === 0) return accept(one)
  const names = prints.map(({ name }) => `\n  ${name ?? '(no name)'}`).join('')
  return refuse(
    one === undefined
      ? {
          code: 'member_unknown',
          message: `There is no print "${member}" in the file. It has${names}`,
        }
      : {
          code: 'member_missing',
          message: `The zip has several prints: say which is meant. It has${names}`,
        },
  )
}

/** The same from what was typed. @throws Fault of wrong usage */
export const chosenPrint = (
  prints: readonly PrintOfFile[],
  member: string | undefined,
): PrintOfFile => taken(findPrint(prints, member), '--member')
