import { type Measured, measured } from './measured.ts'
import type { Outcome } from './refusal.ts'

/** Reads one kind of quantity from what was typed; u = 0 where no ± is. */
type Parse<Q extends number> = (text: string) => Outcome<Measured<Q>>

/** True when the person stated an uncertainty, be it none. */
export const isDoubtStated = (typed: string): boolean => /±|\+\/?-/.test(typed)

/** The last number of a text, its decimals, its power of ten, and the unit after it. */
const lastFigure = /\d*(?:[.,](\d+))?(?:e([+-]?\d+))?(\D*)$/i

/**
 * One unit in the last place of what was typed, in the program's unit: 1 g for `422 g`, 100 g for
 * `0.4 kg`, an ounce for `2 lb 3 oz`. Zero where that can not be told.
 */
export const lastPlaceOf = <Q extends number>(typed: string, parse: Parse<Q>): number => {
  const [, decimals = '', power = '0', unit = ''] = lastFigure.exec(typed.trim()) ?? []
  const places = decimals.length - Number(power)
  const one = places > 0 ? `0.${'0'.repeat(places - 1)}1` : `1${'0'.repeat(-places)}`
  const step = parse(`${one}${unit}`)
  return step.ok ? step.value.value : 0
}

/**
 * Doubt of a figure told in whole steps: anywhere within half a step, as likely here as there, so u is
 * the step over √12.
 *
 * @see JCGM 100:2008, 4.3.7 (rectangular distribution; clause from memory)
 */
export const roundedDoubt = (step: number): number => step / Math.sqrt(12)

/** What was typed, with the doubt that its last place leaves where none is stated. */
export const withTypedDoubt = <Q extends number>(
  typed: string,
  parse: Parse<Q>,
): Outcome<Measured<Q>> => {
  const outcome = parse(typed)
  if (!outcome.ok || isDoubtStated(typed)) return outcome
  const u = roundedDoubt(lastPlaceOf(typed, parse))
  return { ok: true, value: measured(outcome.value.value, u) }
}
