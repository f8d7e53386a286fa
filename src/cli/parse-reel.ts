import type { CarrierKind, ReelFacts, TareFact, Weighing } from '../estimate/index.ts'
import {
  kitchenScale,
  readingVariance,
  type Scale,
  scaleOfClass,
  type Winding,
} from '../filament/index.ts'
import {
  DomainError,
  type Grams,
  grams,
  isDoubtStated,
  lastPlaceOf,
  type Measured,
  measured,
  millimetres,
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
import { refusedOption, usageFault } from './fault.ts'
import { keyedList } from './keyed-list.ts'
import type { ReelOptionName } from './option-table.ts'

/** What was typed of a reel, by option. */
export type ReelText = ReadonlyMap<ReelOptionName, string>

/** A ruler on a reel, mm: common practice, no source. */
export const rulerDoubt = 1
const carriers: readonly CarrierKind[] = ['plastic', 'cardboard', 'refill-core', 'metal']

/** The value, or wrong usage in the refusal's words. @throws Fault */
export const taken = <T>(outcome: Outcome<T>, option: string): T => {
  if (outcome.ok) return outcome.value
  throw refusedOption(option, outcome.refusal)
}

const mass = (typed: string, option: string): Measured<Grams> => taken(parseMass(typed), option)

/**
 * The facts of one reel from what was typed.
 *
 * @param text - only what was given
 * @param nameOf - how the person wrote an option, for messages
 * @throws Fault of wrong usage
 */
export const parseReel = (text: ReelText, nameOf: (key: ReelOptionName) => string): ReelFacts => {
  const read = <T>(
    key: ReelOptionName,
    parse: (typed: string, option: string) => T,
  ): T | undefined => {
    const typed = text.get(key)
    return typed === undefined ? undefined : parse(typed, nameOf(key))
  }
  const gross = read('gross', mass)
  const extra = read('extra', (typed, option) => taken(withTypedDoubt(typed, parseMass), option))
  if (extra !== undefined && gross === undefined) {
    throw usageFault(
      'extra_without_gross',
      `${nameOf('extra')} says what stood on the scale beside the reel: give ${nameOf('gross')} with it.`,
      nameOf('extra'),
    )
  }
  const grossNew = read('gross-new', mass)
  const label = read('label', (typed, option) => exact(mass(typed, option), option))
  const scale = read('scale', (typed, option) =>
    parseScale(typed, option, Math.max(gross?.value ?? 0, grossNew?.value ?? 0)),
  )
  const usual = scale ?? kitchenScale
  const grossNow = read('gross', (typed, option) => weighed(typed, option, usual))
  return defined({
    grossNow: grossNow && defined<Weighing>({ ...grossNow, extra }),
    grossWhenNew: read('gross-new', (typed, option) => weighed(typed, option, usual)),
    scale,
    tare: parseTare(text, nameOf, usual),
    labelNet: label,
    isNew: text.has('new') ? true : undefined,
    material: text.get('material'),
    density: read('density', (typed, option) => taken(parseDensity(typed), option)),
    nominalDiameter: read('diameter', (typed, option) => taken(parseLength(typed), option)),
    calipers: read('calipers', (typed, option) => ({ places: parsePlaces(typed, option) })),
    cutLength: read('cut', (typed, option) => parseCut(typed, option, usual)),
    linearDensity: read('linear-density', (typed, option) =>
      taken(withTypedDoubt(typed, parseLinearDensity), option),
    ),
    winding: read('winding', parseWinding),
    statedNet: read('net', (typed, option) => taken(withTypedDoubt(typed, parseMass), option)),
    statedLength: read('length', (typed, option) =>
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

/** A reading with fewer figures than the scale shows is taken as rounded to those typed. */
const weighed = (typed: string, option: string, scale: Scale): Weighing => {
  const { value, u } = mass(typed, option)
  if (isDoubtStated(typed)) return { reading: value, u }
  const step = lastPlaceOf(typed, parseMass)
  if (step <= scale.displayStep) return { reading: value }
  const rounded: Scale = { ...scale, displayStep: grams(step) }
  return { reading: value, u: Math.sqrt(readingVariance(rounded)) }
}

const exact = ({ value, u }: Measured<Grams>, option: string): Grams => {
  if (u === 0) return value
  throw usageFault(
    'no_uncertainty_here',
    `${option}: write what is printed there, without ±. How far makers fill off it is reckoned with.`,
    option,
  )
}

const parseTare = (
  text: ReelText,
  nameOf: (key: ReelOptionName) => string,
  scale: Scale,
): TareFact | undefined => {
  const ways = (['tare', 'tare-of-make', 'carrier'] as const).filter((key) => text.has(key))
  const [way, another] = ways
  if (way === undefined) return undefined
  if (another !== undefined) {
    throw usageFault(
      'tare_twice',
      `${nameOf(way)} and ${nameOf(another)} both tell the tare. Give the better one only.`,
      nameOf(another),
    )
  }
  const typed = text.get(way) ?? ''
  if (way !== 'carrier') {
    return { kind: 'weighed', weighing: weighed(typed, nameOf(way), scale), own: way === 'tare' }
  }
  const carrier = carriers.find((kind) => kind === typed.trim().toLowerCase())
  if (carrier !== undefined) return { kind: 'looks-like', carrier }
  throw usageFault(
    'carrier_unknown',
    `${nameOf(way)}: "${typed}" is no kind of carrier known here. Choose ${carriers.join(', ')}.`,
    nameOf(way),
  )
}

/** Commas divide where they can not be decimal commas: with a space after them, or beside points. */
export const parsePlaces = (typed: string, option: string): readonly Pair[] => {
  const divider = typed.includes(';') ? /;/ : typed.includes('.') ? /,/ : /,\s+/
  return typed.split(divider).map((place) => taken(parsePair(place), option))
}

/** Its display shows as many figures as were typed, where that is finer than the usual scale. */
const parseCut = (
  typed: string,
  option: string,
  usual: Scale,
): { length: NonNullable<ReelFacts['cutLength']>['length']; weighing: Weighing } => {
  const [long, heavy, more] = typed.split('=')
  if (long === undefined || heavy === undefined || more !== undefined) {
    throw usageFault(
      'cut_malformed',
      `${option}: "${typed}" is not a length and its mass. Write for example 1m=2.98g.`,
      option,
    )
  }
  const weighing = weighed(heavy, option, usual)
  const length = taken(parseLength(long), option)
  const step = 10 ** -(/[.,](\d+)\s*(?:g|grams?)?\s*(?:±|\+|$)/i.exec(heavy)?.[1]?.length ?? 0)
  const fine: Scale = {
    displayStep: grams(step),
    repeatability: grams(step),
    gain: 0.002,
    source: {
      standing: 'common practice, no source',
      where: 'a small scale that shows the figures typed',
    },
  }
  return {
    length: isDoubtStated(long) ? length : measured(length.value, rulerDoubt),
    weighing: step < usual.displayStep ? { ...weighing, scale: fine } : weighing,
  }
}

export const parseWinding = (typed: string, option: string): Winding => {
  const sizes = keyedList(typed, ['hub', 'outer', 'width'], option)
  const size = (key: 'hub' | 'outer' | 'width'): Winding['hub'] => {
    const text = sizes.get(key)
    if (text === undefined) {
      throw usageFault(
        'winding_incomplete',
        `${option}: ${key} is missing. Write for example 'hub=80mm, outer=150mm, width=60mm'.`,
        option,
      )
    }
    const { value, u } = taken(parseLength(text), option)
    return measured(millimetres(value), u > 0 ? u : rulerDoubt)
  }
  return { hub: size('hub'), outer: size('outer'), width: size('width') }
}

/** Heaviest load a class is reckoned for where no weighing tells it, g. */
const usualLoad = 2000

export const parseScale = (typed: string, option: string, heaviest: number): Scale => {
  const parts = keyedList(typed, ['class', 'step', 'repeat', 'gain'], option)
  const figure = (key: 'step' | 'repeat'): Grams | undefined => {
    const text = parts.get(key)
    return text === undefined ? undefined : taken(parseMass(text), option).value
  }
  const step = figure('step')
  const name = parts.get('class')
  if (name === undefined) {
    const gain = parts.get('gain')
    return {
      displayStep: step ?? kitchenScale.displayStep,
      repeatability:
        figure('repeat') ?? (step === undefined ? kitchenScale.repeatability : grams(step / 2)),
      gain: gain === undefined ? kitchenScale.gain : taken(parseShare(gain), option).value,
      source: { standing: 'common practice, no source', where: 'as given for this scale' },
    }
  }
  const accuracyClass = (['I', 'II', 'III', 'IIII'] as const).find(
    (each) => each === name.toUpperCase(),
  )
  if (accuracyClass === undefined || step === undefined) {
    throw usageFault(
      'scale_malformed',
      `${option}: a class is I, II, III or IIII and needs its step, as 'class=III, step=1g'.`,
      option,
    )
  }
  try {
    return scaleOfClass(accuracyClass, step, grams(heaviest > 0 ? heaviest : usualLoad))
  } catch (error) {
    if (!(error instanceof DomainError)) throw error
    throw usageFault(error.code, `${option}: ${error.message}.`, option)
  }
}
