import {
  type DrewJson,
  type DriedJson,
  type FactJson,
  type MeasuredFactJson,
  type MeasuredJson,
  type OpenedJson,
  type StoppedAtJson,
  showId,
  type WeighingJson,
} from '../contract/index.ts'
import {
  celsius,
  formatDensity,
  formatLength,
  formatLinearDensity,
  formatMass,
  formatShare,
  formatTemperature,
  grams,
  gramsPerCubicCentimetre,
  gramsPerMetre,
  measured,
  millimetres,
  share,
} from '../units/index.ts'
import type { LedgerNames } from './ledger-names.ts'

/**
 * A fact in plain English, without its moment and its reel: `weighed 422 g on the kitchen scale`.
 * Who says so and the note come last.
 */
export const describeFact = (fact: FactJson, names: LedgerNames): string => {
  const called = asCalled(names)
  const by = fact.by === undefined ? '' : `, by ${called.person(fact.by)}`
  const note = fact.note === undefined ? '' : `: ${quotable(fact.note)}`
  return `${whatOf(fact, called)}${by}${note}`
}

/** What a person wrote, in quotes where a mass stands in it: it is none of the fact’s figures. */
const quotable = (text: string): string => (/\d\s?k?g\b/i.test(text) ? `“${text}”` : text)

const asCalled = ({ make, printer, scale, person, print }: LedgerNames): LedgerNames => ({
  make: (id) => quotable(make(id)),
  printer: (id) => quotable(printer(id)),
  scale: (id) => quotable(scale(id)),
  person: (id) => quotable(person(id)),
  print: (id) => quotable(print(id)),
})

const mass = ({ value, u }: MeasuredJson): string => formatMass(measured(grams(value), u))
const length = ({ value, u }: MeasuredJson): string => formatLength(measured(millimetres(value), u))
const density = ({ value, u }: MeasuredJson): string =>
  formatDensity(measured(gramsPerCubicCentimetre(value), u))
const part = ({ value, u }: MeasuredJson): string => formatShare(measured(share(value), u))

const whatOf = (fact: FactJson, names: LedgerNames): string => {
  switch (fact.kind) {
    case 'opened':
      return openedAs(fact, names)
    case 'weighed':
      return `weighed ${weighing(fact.weighing, names)}${accepted(fact.accepted_off)}`
    case 'carrier-weighed':
      return `its empty carrier (${names.make(fact.make)}${fact.label_net_g === undefined ? '' : `, of ${fact.label_net_g} g`}) weighed ${weighing(fact.weighing, names)}`
    case 'drew':
      return `${drewAs(fact, names)}${acceptedMore(fact.accepted_off)}`
    case 'trimmed':
      return `trimmed ${[fact.mass_g && mass(fact.mass_g), fact.length_mm && length(fact.length_mm)].find(Boolean)}${acceptedMore(fact.accepted_off)}`
    case 'emptied':
      return 'emptied, what was left unmeasured'
    case 'ran-dry':
      return `ran dry${fact.tail_mm ? `, with a tail of ${length(fact.tail_mm)}` : ''}${accepted(fact.accepted_off)}`
    case 'measured':
      return `measured ${list(measuredParts(fact, names))}`
    case 'data-sheet':
      return `${names.make(fact.make)} by ${fact.source}: ${list([
        ...(fact.density_g_per_cm3 ? [`density ${density(fact.density_g_per_cm3)}`] : []),
        ...(fact.tare_g ? [`tare ${mass(fact.tare_g)}`] : []),
      ])}`
    case 'dried':
      return driedAs(fact)
    case 'moved':
      return `moved to ${fact.place}${fact.air === undefined ? '' : `, into ${fact.air} air`}`
    case 'retired':
      return `left the shelf${fact.reason === undefined ? '' : `: ${fact.reason}`}`
    case 'put-right': {
      const instead =
        fact.instead === undefined ? '' : `; fact ${showId(fact.instead)} holds instead`
      return `put right fact ${showId(fact.voids)}: ${fact.reason}${instead}`
    }
    default:
      return fact satisfies never
  }
}

const weighing = ({ scale, reading_g, u_g, extra_g }: WeighingJson, names: LedgerNames): string => {
  const reading = mass({ value: reading_g, u: u_g ?? 0 })
  const extra = extra_g === undefined ? '' : `, of which ${mass(extra_g)} is something else`
  return `${reading} on ${withArticle(names.scale(scale))}${extra}`
}

/** Scales are things, and take an article where their name brings none. */
const withArticle = (name: string): string =>
  /^“?(?:the|our|my|a|an)\s/i.test(name) ? name : `the ${name}`

/** Beyond this a count of standard deviations says no more. */
const mostDeviations = 50

const taken = (off: number | undefined, what: string): string =>
  off === undefined
    ? ''
    : `, taken although ${Math.abs(off) > mostDeviations ? `over ${mostDeviations}` : Math.abs(off).toFixed(1)} standard deviations ${what}`

const accepted = (off: number | undefined): string => taken(off, 'off what was expected')

const acceptedMore = (off: number | undefined): string =>
  taken(off, 'more than it was believed to hold')

const driedAs = ({ temperature_c, hours, remaining_share }: DriedJson): string =>
  [
    'dried',
    ...(temperature_c === undefined
      ? []
      : [`at ${formatTemperature(measured(celsius(temperature_c)))}`]),
    ...(hours === undefined ? [] : [`for ${hours} h`]),
    ...(remaining_share ? [`down to ${part(remaining_share)} of water`] : []),
  ].join(' ')

const openedAs = (fact: OpenedJson, names: LedgerNames): string => {
  const { label_net_g: label, gross_when_new: gross, colour, price, lot, place } = fact
  return [
    `opened${fact.part_used ? ', part-used already' : ''}: ${names.make(fact.make)}`,
    ...(colour === undefined ? [] : [colour.name]),
    ...(label === undefined ? [] : [`${mass({ value: label, u: 0 })} on the label`]),
    ...(gross === undefined ? [] : [`weighed ${weighing(gross, names)} when new`]),
    ...(lot === undefined ? [] : [`lot ${quotable(lot)}`]),
    ...(price === undefined ? [] : [`bought for ${price.amount} ${price.currency}`]),
    ...(place === undefined ? [] : [`kept at ${place}`]),
  ].join(', ')
}

/** A length out of a file is exact; people read it to the millimetre, long ones to the centimetre. */
const drawn = (value: number): string => {
  const step = value >= 100 ? 10 : value >= 10 ? 1 : 0.1
  const rounded = step < 1 ? Math.round(value * 10) / 10 : Math.round(value / step) * step
  return rounded >= 100 ? `${(rounded / 1000).toFixed(2)} m` : `${rounded} mm`
}

const drewAs = (fact: DrewJson, names: LedgerNames): string => {
  const { length_mm, share: fed, stopped_at: stop, print, tool, layers } = fact
  const file = print === undefined ? '' : ` for ${names.print(print)}`
  const which = tool === undefined || tool === 0 ? '' : ` as tool ${tool}`
  const whole = `${drawn(length_mm)} on ${names.printer(fact.printer)}${which}${file}`
  const where = stop === undefined || layers?.to !== undefined ? undefined : stoppedAs(stop)
  const told = [
    ...(layers === undefined ? [] : [layersAs(layers)]),
    ...(where === undefined ? [] : [where]),
    ...(fed === undefined ? [] : [`${partFed(fed)} of it fed`]),
  ]
  if (told.length === 0) return `fed ${whole}`
  // What was fed up to a change, or to the end, did not only begin.
  const isCut = layers === undefined || where !== undefined
  return `${isCut ? 'began to feed' : 'fed part of'} ${whole}, ${told.join(', ')}`
}

/** Between layers a share comes out of the file, exact; people read it to a tenth of a percent. */
const partFed = (fed: MeasuredJson): string =>
  fed.u === 0 ? `${(100 * fed.value).toFixed(1)} %` : part(fed)

const layersAs = ({ after, to }: NonNullable<DrewJson['layers']>): string => {
  if (after === undefined) return `to the end of layer ${to}`
  return to === undefined ? `from layer ${after + 1} on` : `layers ${after + 1} to ${to}`
}

const stoppedAs = ({ layer, height_mm }: StoppedAtJson): string => {
  if (layer !== undefined) return `stopped in layer ${layer}`
  if (height_mm === undefined) return 'stopped on the way'
  return `stopped at a height of ${length({ value: height_mm, u: 0 })}`
}

const measuredParts = (fact: MeasuredFactJson, names: LedgerNames): readonly string[] => {
  const { calipers, cut, immersion, winding } = fact
  const { density_g_per_cm3: rho, linear_density_g_per_m: lambda } = fact
  const places = calipers?.places_mm.length ?? 0
  return [
    ...(calipers ? [`its diameter at ${places} place${places === 1 ? '' : 's'}`] : []),
    ...(cut ? [`a cut of ${length(cut.length_mm)}: ${weighing(cut.weighing, names)}`] : []),
    ...(immersion
      ? [`a piece of ${mass(immersion.in_air_g)} in air and ${mass(immersion.in_water_g)} in water`]
      : []),
    ...(rho ? [`a density of ${density(rho)}`] : []),
    ...(lambda ? [formatLinearDensity(measured(gramsPerMetre(lambda.value), lambda.u))] : []),
    ...(winding
      ? [
          `its winding: ${length(winding.outer_mm)} over a hub of ${length(winding.hub_mm)}, ${length(winding.width_mm)} wide`,
        ]
      : []),
  ]
}

const list = (parts: readonly string[]): string =>
  parts.length < 2
    ? (parts[0] ?? 'nothing')
    : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`
