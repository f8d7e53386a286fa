/** Units that a scale may show. */
export type ScaleUnit = 'g' | 'oz' | 'lb'

/**
 * A mass as typed, with the unit that was meant where its last number has none.
 *
 * @param unit - `lb` is pounds and ounces: `1 lb 2` and `1 2` have their ounces last; a bare `2` is pounds
 */
export function massInUnit(typed: string, unit: ScaleUnit): string {
  const text = typed.trim()
  if (unit === 'g' || !/\d[.,]?$/.test(text)) return text
  const [, pounds, ounces] = /^(\d+)\s+(\d{1,2}(?:[.,]\d*)?)$/.exec(text) ?? []
  if (unit === 'lb' && Number.parseInt(ounces ?? '', 10) < 16) return `${pounds} lb ${ounces} oz`
  if (unit === 'oz') return `${text} oz`
  return `${text} ${/lb|pound/i.test(text) ? 'oz' : 'lb'}`
}
