import { findMaterial } from '../filament/index.ts'
import type { Measured } from '../units/index.ts'
import type { Assumption } from './assumption.ts'
import { type JointNormal, marginal } from './joint-normal.ts'
import type { Prior } from './priors.ts'
import type { NextPrint, ReelBelief } from './reel-belief.ts'
import { carrierNames } from './reel-priors.ts'
import { placeOf } from './shelf-book.ts'
import type { ShelfEstimate } from './shelf-estimate.ts'
import { type PrinterPosterior, printerPosterior } from './shelf-posterior.ts'
import type { MakePrior } from './shelf-priors.ts'

/** A quantity of which less than half of the prior variance is gone still rests on its prior. */
const mostly = 0.5

/** Whether a quantity still rests on its prior. @param before - its u there */
export const isAssumed = (before: number, now: number): boolean =>
  before > 0 && now ** 2 > mostly * before ** 2

/** The forms of a shelf belief, made already. */
type Forms = Pick<ReelBelief, 'tare' | 'linearDensity' | 'area'> & {
  readonly makeDensity: { readonly terms: Readonly<Record<string, number>> }
  readonly nextPrint?: NextPrint
}

/**
 * What of a reel still rests mostly on priors, nobody having measured it on this reel, its make or the
 * printer. Values are the priors'.
 *
 * @param reel - its place
 * @param printer - its place, where one is in question
 */
export const assumedOfReel = (
  { book, tapes, reelFacts, makeFacts }: ShelfEstimate,
  reel: number,
  joint: JointNormal,
  forms: Forms,
  printer: number | undefined,
): readonly Assumption[] => {
  const { priors, catalogue } = book
  const place = book.makeOfReel[reel]!
  const make = catalogue.makes[place]!
  const prior = book.makes[place]!
  const found: Assumption[] = []
  const say = (id: string, what: string, { unit, source }: Prior, { value, u }: Measured): void => {
    found.push({ id, what, value, u, unit, source })
  }

  const ofOne = Math.hypot(prior.tare.u, priors.carrierOfOneMake.u)
  if (isAssumed(ofOne, marginal(joint, forms.tare).u)) {
    const { carrier } = make
    say(
      'tare',
      carrier === undefined
        ? 'tare, the carrier being unknown'
        : `tare of ${carrierNames[carrier]}`,
      priors.carrierKinds[carrier ?? 'plastic'],
      { value: prior.tare.value, u: ofOne },
    )
  }
  const facts = reelFacts[reel]!
  const isWeighed = facts.some(
    (fact) =>
      fact.kind === 'weighed' ||
      fact.kind === 'ran-dry' ||
      (fact.kind === 'opened' && fact.grossWhenNew !== undefined && fact.partUsed !== true),
  )
  const [opened] = facts
  const isPartOf = opened?.kind === 'opened' && opened.partUsed === true
  if (!isWeighed && (isPartOf || Number.isNaN(tapes[reel]!.label))) {
    const upTo = tapes[reel]!.upTo ?? (isPartOf ? (opened.labelNet ?? make.labelNet) : undefined)
    const opening = priors.openingWithoutLabel
    if (upTo === undefined) {
      say('opening', 'net mass at opening, no label and no weighing telling', opening, opening)
    } else {
      const any = { value: upTo / 2, u: upTo / Math.sqrt(12) }
      say('opening', 'part-used and never weighed: anything up to its label', opening, any)
    }
  } else if (!isWeighed) {
    say('overfill', 'net mass at opening over the label', priors.overfill, priors.overfill)
  }
  // What is told of a material of one's own, or a maker or a measurement says, is no guess, however little it narrows.
  const isDensityTold =
    make.density !== undefined ||
    facts.some((fact) => fact.kind === 'measured' && fact.density !== undefined) ||
    makeFacts[place]!.some((fact) => fact.kind === 'data-sheet' && fact.density !== undefined)
  for (const one of ofFilament(joint, forms, prior, make.material, priors)) {
    if (one.id !== 'density' || !isDensityTold) found.push(one)
  }
  if (printer !== undefined && forms.nextPrint) {
    const { meanFeedFactor, meanStartAllowance } = forms.nextPrint
    found.push(
      ...ofPrinter(book, printer, {
        feedFactor: marginal(joint, meanFeedFactor),
        startAllowance: marginal(joint, meanStartAllowance),
      }),
    )
  }
  return found
}

/**
 * What of a printer still rests mostly on priors.
 *
 * @throws DomainError `unknown_id`
 */
export const assumedOfPrinter = (
  estimate: ShelfEstimate,
  printer: string,
): readonly Assumption[] => [
  ...ofPrinter(
    estimate.book,
    placeOf(estimate.book.printerAt, printer, 'printer'),
    printerPosterior(estimate, printer),
  ),
]

function* ofPrinter(
  { priors, catalogue, printers }: ShelfEstimate['book'],
  printer: number,
  now: Pick<PrinterPosterior, 'feedFactor' | 'startAllowance'>,
): Generator<Assumption, void> {
  const told = catalogue.printers[printer]!
  const believed = printers[printer]!
  const rests = (key: 'feedFactor' | 'startAllowance'): boolean =>
    told[key] === undefined && isAssumed(believed[key].u, now[key].u)
  if (rests('feedFactor')) {
    const { value, u, unit, source } = priors.feedFactor
    const what = 'what the printer feeds for each millimetre asked'
    yield { id: 'feed_factor', what, value, u, unit, source }
  }
  if (rests('startAllowance')) {
    const { value, u, unit, source } = priors.startAllowance
    const what = 'filament used per print that is not in the file'
    yield { id: 'start_allowance', what, value, u, unit, source }
  }
}

/** Density and diameter; where the linear density is known better than one, that one is no matter. */
function* ofFilament(
  joint: JointNormal,
  { linearDensity, area, makeDensity }: Forms,
  { density, nominalArea, areaSpread }: MakePrior,
  material: string | undefined,
  priors: ShelfEstimate['book']['priors'],
): Generator<Assumption, void> {
  const perMetre = marginal(joint, linearDensity)
  const relative = perMetre.u / perMetre.value
  const ofDensity = density.u / density.value
  const densityNow = marginal(joint, makeDensity).u
  if (isAssumed(density.u, densityNow) && isAssumed(ofDensity, relative)) {
    const found = material === undefined ? undefined : findMaterial(material)
    const named = found?.ok ? found.value : undefined
    const source =
      named === undefined
        ? priors.densityOfUnknownMaterial.source
        : (named.density && named.densitySource) || priors.densityOfFilledGrade.source
    const what = named ? `density of ${named.name}` : 'density, the material being unknown'
    yield { id: 'density', what, value: density.value, u: density.u, unit: 'g/cm³', source }
  }
  const ofArea = Math.hypot(areaSpread, priors.reelAboutMake.u)
  const areaNow = marginal(joint, area).u / nominalArea
  if (isAssumed(ofArea, areaNow) && isAssumed(ofArea, relative)) {
    const { unit, source, u } = priors.diameterOffset
    const value = Math.sqrt(nominalArea / (Math.PI / 4))
    yield {
      id: 'diameter',
      what: 'mean diameter of a reel about its nominal',
      value,
      u,
      unit,
      source,
    }
  }
}
