import type { MeasuredJson } from '../../contract/index.ts'
import {
  accept,
  type Measured,
  type Outcome,
  parseDensity,
  parseLength,
  parseMass,
  parseNumber,
  refuse,
} from '../../units/index.ts'
import { priorWords } from '../strings/prior-words.ts'

const short = (figure: number): string => String(Number(figure.toPrecision(4)))

/** As it was written down, not rounded: it is a setting. */
export const showPrior = ({ value, u }: MeasuredJson, unit: string): string => {
  return `${short(value)} ± ${short(u)}${unit === '1' ? '' : ` ${unit}`}`
}

const parsers: Readonly<Record<string, (text: string) => Outcome<Measured>>> = {
  g: parseMass,
  mm: (text) => parseLength(text),
  'g/cm³': parseDensity,
}

const bare = /^\s*([-−]?\d+(?:[.,]\d+)?)\s*(?:±|\+\/?-)\s*(\d+(?:[.,]\d+)?)\s*(\D*)$/

/** A prior as it is typed: with its uncertainty, with or without its unit. */
export const readPrior = (
  text: string,
  unit: string,
  usual: MeasuredJson,
): Outcome<MeasuredJson> => {
  const [, value, u, typed = ''] = bare.exec(text) ?? []
  // Differences may be of either sign, which no quantity's parser takes.
  if (value !== undefined && u !== undefined && ['', unit].includes(typed.trim())) {
    const [middle, doubt] = [parseNumber(value.replace('−', '-')), parseNumber(u)]
    if (!middle.ok) return middle
    return doubt.ok ? accept({ value: middle.value, u: doubt.value }) : doubt
  }
  const read = parsers[unit]?.(text)
  if (read?.ok === true && read.value.u > 0) {
    return accept({ value: read.value.value, u: read.value.u })
  }
  if (read?.ok === true && usual.u === 0) return accept({ value: read.value.value, u: 0 })
  if (read?.ok === false) return read
  return refuse({
    code: 'prior_malformed',
    message: priorWords.malformed(showPrior(usual, unit)),
  })
}
