import type { MeasuredJson } from '../../contract/index.ts'
import {
  accept,
  type Measured,
  type Outcome,
  parseDensity,
  parseNumber,
  refuse,
} from '../../units/index.ts'
import { readLength, readMass } from '../field/read-in-unit.ts'
import { refuseDotted } from '../field/refuse-dotted.ts'
import { priorWords } from '../strings/prior-words.ts'
import { type MassUnit, ounce_g } from '../strings/show-figure.ts'

const short = (figure: number): string => String(Number(figure.toPrecision(4)))

/** A prior to four figures. @param chosen - that masses are shown in */
export const showPrior = (
  { value, u }: MeasuredJson,
  unit: string,
  chosen: MassUnit = 'g',
): string => {
  const shown = unit === 'g' ? chosen : unit
  const [middle, doubt] = [value, u].map((figure) => short(figure / factorOf(shown)))
  return `${middle} ± ${doubt}${shown === '1' ? '' : ` ${shown}`}`
}

/** What a figure in a unit is times, in the unit of the prior. */
const factorOf = (shown: string): number => (shown === 'oz' ? ounce_g : 1)

const parsers: Readonly<Record<string, (text: string, chosen: MassUnit) => Outcome<Measured>>> = {
  g: readMass,
  mm: (text) => readLength(text),
  'g/cm³': parseDensity,
}

const bare = /^\s*([-−]?\d+(?:[.,]\d+)?)\s*(?:±|\+\/?-)\s*(\d+(?:[.,]\d+)?)\s*(\D*)$/

/** A prior as it is typed: with its uncertainty, with or without its unit. @param chosen - of a mass without one */
export const readPrior = (
  text: string,
  unit: string,
  usual: MeasuredJson,
  chosen: MassUnit = 'g',
): Outcome<MeasuredJson> => {
  const shown = unit === 'g' ? chosen : unit
  const [, value, u, typed = ''] = bare.exec(text) ?? []
  // Differences may be of either sign, which no quantity's parser takes.
  const typedIn = typed.trim() === '' ? shown : typed.trim()
  if (value !== undefined && u !== undefined && [unit, shown].includes(typedIn)) {
    const by = factorOf(typedIn)
    const dotted = unit === 'g' || unit === 'mm' ? (refuseDotted(value) ?? refuseDotted(u)) : null
    if (dotted !== null) return dotted
    const [middle, doubt] = [parseNumber(value.replace('−', '-')), parseNumber(u)]
    if (!middle.ok) return middle
    return doubt.ok ? accept({ value: by * middle.value, u: by * doubt.value }) : doubt
  }
  const read = parsers[unit]?.(text, chosen)
  if (read?.ok === true && read.value.u > 0) {
    return accept({ value: read.value.value, u: read.value.u })
  }
  if (read?.ok === true && usual.u === 0) return accept({ value: read.value.value, u: 0 })
  if (read?.ok === false) return read
  return refuse({
    code: 'prior_malformed',
    message: priorWords.malformed(showPrior(usual, unit, chosen)),
  })
}
