import type { CarrierKind } from '../estimate/index.ts'
import { doubted, exactDoubts } from '../ledger/index.ts'
import type { ReelMeasure, ReelTold, ScaleTold, WeighingTold } from '../service/index.ts'
import {
  type Grams,
  isDoubtStated,
  type Measured,
  type Outcome,
  type Pair,
  parseDensity,
  parseLength,
  parseLinearDensity,
  parseMass,
  parsePair,
  parseShare,
  withTypedDoubt,
} from '../units/index.ts'
import { usageFault } from './fault.ts'
import { keyedList } from './keyed-list.ts'
import type { ReelOptionName } from './option-table.ts'
import { parseWeighing } from './parse-weighing.ts'
import { taken } from './taken.ts'

/** What was typed of a reel, by option. */
export type ReelText = ReadonlyMap<ReelOptionName, string>

const carriers: readonly CarrierKind[] = ['plastic', 'cardboard', 'refill-core', 'metal']

/**
 * What is told of one reel, from what was typed.
 *
 * @param text - only what was given
 * @param nameOf - how the person wrote an option, for messages
 * @throws Fault of wrong usage
 */
export const parseReel = (text: ReelText, nameOf: (key: ReelOptionName) => string): ReelTold => {
  const read = <T>(
    key: ReelOptionName,
    parse: (typed: string, option: string) => T,
  ): T | undefined => {
    const typed = text.get(key)
    return typed === undefined ? undefined : parse(typed, nameOf(key))
  }
  const extra = read('extra', (typed, option) => taken(withTypedDoubt(typed, parseMass), option))
  if (extra !== undefined && !text.has('gross')) {
    throw usageFault(
      'extra_without_gross',
      `${nameOf('extra')} says what stood on the scale beside the reel: give ${nameOf('gross')} with it.`,
      nameOf('extra'),
    )
  }
  const gross = read('gross', weighed)
  const places = read('calipers', parsePlaces)
  return defined<ReelTold>({
    gross: gross && { ...gross, ...(extra && { extra_g: extra }) },
    grossWhenNew: read('gross-new', weighed),
    scale: read('scale', parseScale),
    ownCarrier: read('tare', weighed),
    emptyCarrier: read('tare-of-make', weighed),
    carrier: read('carrier', parseCarrier),
    label_net_g: read('label', exact),
    isNew: text.has('new') ? true : undefined,
    material: text.get('material'),
    density_g_per_cm3: read('density', (typed, option) => taken(parseDensity(typed), option)),
    diameter_mm: read('diameter', (typed, option) => taken(parseLength(typed), option)),
    calipers: places && placesTold(places),
    calipersU_mm: places && doubtOf(places),
    cut: read('cut', (typed, option) => parseCut(typed, option)),
    linear_density_g_per_m: read('linear-density', (typed, option) =>
      taken(withTypedDoubt(typed, parseLinearDensity), option),
    ),
    winding: read('winding', parseWinding),
    net_g: read('net', (typed, option) => taken(withTypedDoubt(typed, parseMass), option)),
    length_mm: read('length', (typed, option) =>
      taken(
        withTypedDoubt(typed, (each) => parseLength(each, 'm')),
        option,
      ),
    ),
  })
}

/** Leaves out what was not given. */
const defined = <T extends object>(parts: { readonly [K in keyof T]: T[K] | undefined }): T =>
  Object.fromEntries(Object.entries(parts).filter(([, part]) => part !== undefined)) as T

const weighed = (typed: string, option: string): WeighingTold => parseWeighing(typed, {}, option)

const exact = (typed: string, option: string): Grams => {
  const { value, u } = taken(parseMass(typed), option)
  if (u === 0) return value
  throw usageFault(
    'no_uncertainty_here',
    `${option}: write what is printed there, without ±. How far makers fill off it is reckoned with.`,
    option,
  )
}

/** @throws Fault `carrier_unknown` */
export const parseCarrier = (typed: string, option: string): CarrierKind => {
  const carrier = carriers.find((kind) => kind === typed.trim().toLowerCase())
  if (carrier !== undefined) return carrier
  throw usageFault(
    'carrier_unknown',
    `${option}: "${typed}" is no kind of carrier known here. Choose ${carriers.join(', ')}.`,
    option,
  )
}

/** Commas divide where they can not be decimal commas: with a space after them, or beside points. */
const parsePlaces = (typed: string, option: string): readonly Pair[] => {
  const divider = typed.includes(';') ? /;/ : typed.includes('.') ? /,/ : /,\s+/
  return typed.split(divider).map((place) => taken(parsePair(place), option))
}

const placesTold = (places: readonly Pair[]): NonNullable<ReelMeasure['calipers']> => ({
  places_mm: places.map(([a, b]) => [a.value, b.value] as const),
})

/** What calipers showed. @throws Fault of wrong usage */
export const parseCalipers = (
  typed: string,
  option: string,
): NonNullable<ReelMeasure['calipers']> => placesTold(parsePlaces(typed, option))

/** Root mean square of the doubts typed; undefined where none is. */
const doubtOf = (places: readonly Pair[]): number | undefined => {
  const squares = places.reduce((sum, [{ u }]) => sum + u ** 2, 0)
  return squares === 0 ? undefined : Math.sqrt(squares / places.length)
}

/** A piece cut off and weighed. @throws Fault of wrong usage */
export const parseCut = (
  typed: string,
  option: string,
  scale?: string,
): NonNullable<ReelMeasure['cut']> => {
  const [long, heavy, more] = typed.split('=')
  if (long === undefined || heavy === undefined || more !== undefined) {
    throw usageFault(
      'cut_malformed',
      `${option}: "${typed}" is not a length and its mass. Write for example 1m=2.98g.`,
      option,
    )
  }
  const { value, u } = taken(parseLength(long), option)
  const weighing = parseWeighing(heavy, scale === undefined ? {} : { scale }, option)
  return { length_mm: { value, u: isDoubtStated(long) ? u : exactDoubts.ruler }, weighing }
}

/** Sizes of a winding. @throws Fault of wrong usage */
export const parseWinding = (
  typed: string,
  option: string,
): NonNullable<ReelMeasure['winding']> => {
  const sizes = keyedList(typed, ['hub', 'outer', 'width'], option)
  const size = (key: 'hub' | 'outer' | 'width'): Measured => {
    const text = sizes.get(key)
    if (text === undefined) {
      throw usageFault(
        'winding_incomplete',
        `${option}: ${key} is missing. Write for example 'hub=80mm, outer=150mm, width=60mm'.`,
        option,
      )
    }
    return doubted(taken(parseLength(text), option), exactDoubts.ruler)
  }
  return { hub_mm: size('hub'), outer_mm: size('outer'), width_mm: size('width') }
}

const classes = ['I', 'II', 'III', 'IIII'] as const

/** A scale by its figures or its class. @throws Fault of wrong usage */
export const parseScale = (typed: string, option: string): ScaleTold => {
  const parts = keyedList(typed, ['class', 'step', 'repeat', 'gain'], option)
  const figure = (
    key: 'step' | 'repeat' | 'gain',
    parse: (text: string) => Outcome<Measured>,
  ): number | undefined => {
    const text = parts.get(key)
    return text === undefined ? undefined : taken(parse(text), option).value
  }
  const name = parts.get('class')
  const accuracyClass = classes.find((each) => each === name?.toUpperCase())
  const step_g = figure('step', parseMass)
  if (name !== undefined && (accuracyClass === undefined || step_g === undefined)) {
    throw usageFault(
      'scale_malformed',
      `${option}: a class is I, II, III or IIII and needs its step, as 'class=III, step=1g'.`,
      option,
    )
  }
  return defined<ScaleTold>({
    class: accuracyClass,
    step_g,
    repeatability_g: figure('repeat', parseMass),
    gain: figure('gain', parseShare),
  })
}
