import type { ErrorPartJson } from '../contract/index.ts'
import { harmless } from './terminal.ts'
import { wrap } from './wrap.ts'

/** A print's name as a line of a table has room for it: of a long path the end tells more. */
export const nameIn = (
  { file, member }: { readonly file: string; readonly member: string | null },
  width: number,
): string => {
  const name = harmless(member === null ? file : `${file}, ${member}`)
  return name.length > width ? `…${name.slice(1 - width)}` : name
}

/** Why files of several could not be read, a paragraph each. */
export const unreadLines = (errors: readonly ErrorPartJson[]): readonly string[] =>
  errors.map(({ file, line, message }) => {
    const place = line === null || line === 0 ? '' : `line ${line}: `
    return wrap(harmless(`${file ?? ''}: ${place}${message}`), '  !  ')
  })
