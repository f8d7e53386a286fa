import type { PrintRowJson } from '../contract/index.ts'
import { accept, type Outcome, refuse } from '../units/index.ts'
import type { HandedIn } from './handed-in.ts'

/**
 * The kept print whose id begins so.
 *
 * @returns `print_unknown`, `print_ambiguous`
 */
export const keptPrint = async (
  { store }: Pick<HandedIn, 'store'>,
  typed: string,
): Promise<Outcome<PrintRowJson>> => {
  const begins = typed.trim().toLowerCase()
  const found = (await store.prints()).filter(({ id }) => id.startsWith(begins))
  const [one, ...more] = found
  const print = one === undefined ? undefined : await store.print(one.id)
  if (print === undefined || begins === '') {
    return refuse({
      code: 'print_unknown',
      message: `No print whose hash begins with "${typed}" was kept. Give its file.`,
      received: typed,
    })
  }
  if (more.length > 0) {
    return refuse({
      code: 'print_ambiguous',
      message: `"${typed}" begins the hash of several prints. Give more of it:${found
        .slice(0, 12)
        .map(({ id, file }) => `\n  ${id.slice(0, 16)}  ${file}`)
        .join('')}`,
      received: typed,
    })
  }
  return accept(print)
}
