import type { PrintOfFile } from '../print/index.ts'
import { usageFault } from './fault.ts'

/**
 * The print of a file that is meant: the only one, or the member of a zip that is named.
 *
 * @throws Fault `member_missing`, `member_unknown`
 */
export const chosenPrint = (
  prints: readonly PrintOfFile[],
  member: string | undefined,
): PrintOfFile => {
  const found =
    member === undefined
      ? prints
      : prints.filter(({ name }) => name === member || name?.split('/').at(-1) === member)
  const [one, ...more] = found
  if (one !== undefined && more.length === 0) return one
  const names = prints.map(({ name }) => `\n  ${name ?? '(no name)'}`).join('')
  throw usageFault(
    one === undefined ? 'member_unknown' : 'member_missing',
    one === undefined
      ? `--member: there is no print "${member}" in the file. It has${names}`
      : `The zip has several prints: say which with --member. It has${names}`,
    '--member',
  )
}
