import { formatMeasured } from '../../units/index.ts'
import { type MassUnit, ounce_g, whole } from './show-figure.ts'

const number = String.raw`[-−]?\d{1,3}(?:,\d{3})+|[-−]?\d+(?:\.\d+)?`

/** What was typed, and names as they were given, stand in quotes and stay as they are. */
const quoted = String.raw`"[^"]*"|“[^”]*”`

/** A figure of a mass: alone, with its uncertainty, or from one to another. Not what is in grams per something. */
const mass = String.raw`(?<![\w.,–-])(${number})(?: (±|to) (${number})|(?<=between ${number}) (and) (${number}))? (g|kg)(?![\w/·-]| of \w+ per| per )`

const massesOf = new RegExp(`${quoted}|${mass}`, 'g')

/**
 * A sentence of the server as the app shows it: its masses in the unit chosen, and torn by no end of a line. The layers below
 * word what they found in grams, as the command line prints it; all of it comes through here.
 */
export const saidIn = (sentence: string, unit: MassUnit): string =>
  sentence.replaceAll(
    massesOf,
    (found, first?: string, ...[link, second, and, last, of]: readonly (string | undefined)[]) => {
      if (first === undefined) return found
      return whole(
        unit === 'g' ? found : inOunces(first, link ?? and, second ?? last, of === 'kg' ? 1000 : 1),
      )
    },
  )

const inOunces = (
  first: string,
  link: string | undefined,
  second: string | undefined,
  by: number,
): string => {
  if (link === '±' && second !== undefined && valueOf(second) > 0) {
    const [value = 0, u = 0] = [first, second].map((text) => (valueOf(text) * by) / ounce_g)
    return formatMeasured({ value, u }, 'oz')
  }
  const shown = [first, ...(second === undefined ? [] : [second])].map((text) =>
    ounceText(text, by),
  )
  return `${shown.join(` ${link} `)} oz`
}

/** As fine as the grams were told, and no finer than a scale shows. */
const ounceText = (text: string, by: number): string => {
  // Of kilograms a whole one is told as finely as grams are: a label is the same in both.
  const finest_g = Math.min(by / 10 ** (text.split('.')[1]?.length ?? 0), 1)
  const places = Math.max(0, Math.ceil(Math.log10(ounce_g / finest_g)))
  return String(Number(((valueOf(text) * by) / ounce_g).toFixed(places)))
}

const valueOf = (text: string): number => Number(text.replaceAll(',', '').replace('−', '-'))
