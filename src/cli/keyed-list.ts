import { usageFault } from './fault.ts'

/**
 * Takes `a=1, b=2; c` apart. A comma or semicolon divides only where one of the keys follows, so
 * that decimal commas and lists inside a value stay whole.
 *
 * @param keys - those taken; a key without `=` has the value ''
 * @param option - for the message
 * @returns in the order in which they are told
 * @throws Fault `key_unknown`
 */
export const keyedParts = <K extends string>(
  text: string,
  keys: readonly K[],
  option: string,
): readonly (readonly [key: K, value: string])[] => {
  // The longest first: tare-of-make is not tare.
  const names = keys.toSorted((a, b) => b.length - a.length).join('|')
  const parts = text.split(new RegExp(`[,;](?=\\s*(?:${names})\\s*(?:=|[,;]|$))`))
  return parts.map((part) => {
    const at = part.indexOf('=')
    const name = (at < 0 ? part : part.slice(0, at)).trim()
    const key = keys.find((each) => each === name)
    if (key === undefined) {
      throw usageFault(
        'key_unknown',
        `${option}: "${part.trim()}" is not understood. It takes ${keys.map((each) => `${each}=…`).join(', ')}.`,
        option,
      )
    }
    return [key, at < 0 ? '' : part.slice(at + 1).trim()] as const
  })
}

/**
 * The same where each key may be told once.
 *
 * @throws Fault `key_unknown`, `key_twice`
 */
export const keyedList = <K extends string>(
  text: string,
  keys: readonly K[],
  option: string,
): ReadonlyMap<K, string> => {
  const found = new Map<K, string>()
  for (const [key, value] of keyedParts(text, keys, option)) {
    if (found.has(key)) throw usageFault('key_twice', `${option}: "${key}" is given twice.`, option)
    found.set(key, value)
  }
  return found
}

/**
 * Sees to it that a key stands alone.
 *
 * @throws Fault `key_bare`
 */
export const bare = (key: string, value: string, option: string): void => {
  if (value === '') return
  throw usageFault(
    'key_bare',
    `${option}: "${key}" stands alone, and "${value}" says nothing of it. Leave the key out where it is not so.`,
    option,
  )
}
