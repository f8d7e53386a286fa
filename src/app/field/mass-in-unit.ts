/** Units that a scale may show. */
export type ScaleUnit = 'g' | 'oz' | 'lb'

/**
 * A mass as typed, with the unit that was meant where its last number has none.
 *
 * @param unit - `lb` is pounds and ounces: `1 lb 2` has its ounces last; a bare `2` is pounds
 */
export function massInUnit(typed: string, unit: ScaleUnit): string {
  const text = typed.trim()
  if (unit === 'g' || !/\d[.,]?$/.test(text)) return text
  if (unit === 'oz') return `${text} oz`
  return `${text} ${/lb|pound/i.test(text) ? 'oz' : 'lb'}`
}
