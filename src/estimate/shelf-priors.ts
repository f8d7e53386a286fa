import { crossSection, findMaterial } from '../filament/index.ts'
import { DomainError, type Measured, measured, millimetres } from '../units/index.ts'
import { defaultPriors, type Prior, type Priors, tareOfKind, unknownTareOf } from './priors.ts'
import type { ShelfMake, ShelfPrinter } from './shelf-facts.ts'

/** The priors of one reel and what a shelf needs beside them. */
export interface ShelfPriors extends Priors {
  /** Overfill of one reel about the mean of its make: a difference. */
  readonly overfillOfOneMake: Prior
  /** Density of one reel's filament over the mean of its make: a relative difference. */
  readonly densityOfOneMake: Prior
  /** Feed of one print over the printer's mean: a relative difference. */
  readonly feedOfOneDraw: Prior
  /** Start allowance of one print about the printer's mean, a difference. */
  readonly startOfOneDraw: Prior
  /** Repeatability and gain of a scale over those stated of it: a factor. */
  readonly scaleOverStated: Prior
}

const practice = (where: string): Prior['source'] => ({
  standing: 'common practice, no source',
  where,
})

/** @see docs/method/shelf.md, "Priors" */
export const defaultShelfPriors: ShelfPriors = {
  ...defaultPriors,
  overfillOfOneMake: {
    value: 0,
    u: 0.007,
    unit: '1',
    source: practice('one line is wound to one setting; reels differ less than lines do'),
  },
  densityOfOneMake: {
    value: 0,
    u: 0.005,
    unit: '1',
    source: practice('colours of one line differ by their pigment'),
  },
  feedOfOneDraw: {
    value: 0,
    u: 0.003,
    unit: '1',
    source: practice('grip and back-pressure differ from print to print'),
  },
  startOfOneDraw: {
    value: 0,
    u: 30,
    unit: 'mm',
    source: practice('a purge by hand, or a start that was tried twice'),
  },
  scaleOverStated: {
    value: 1,
    u: 0,
    unit: '1',
    source: practice('a scale is what it is said to be, until its readings tell otherwise'),
  },
}

/** What is believed of a make before any of its reels is measured. */
export interface MakePrior {
  /** Mean tare, g. */
  readonly tare: Measured
  /** Mean net mass at opening over the label. */
  readonly overfill: Measured
  /** Mean density, g/cm³. */
  readonly density: Measured
  /** Nominal cross-section, mm². */
  readonly nominalArea: number
  /** Standard uncertainty of the mean cross-section as a share of the nominal. */
  readonly areaSpread: number
}

/** What is left of a spread when a part of it is carried elsewhere. */
const beside = (whole: number, part: number): number =>
  Math.sqrt(Math.max(0, whole ** 2 - part ** 2))

/**
 * Priors of a make. Its spread and that of a reel about it make together the spread that the
 * estimate of a single reel takes.
 *
 * @throws DomainError `material_unknown`
 */
export const makePrior = (make: ShelfMake, priors: ShelfPriors): MakePrior => {
  const label = make.labelNet ?? 1000
  const tare =
    make.carrier === undefined
      ? unknownTareOf(priors, label)
      : tareOfKind(priors, make.carrier, label)
  const diameter = make.nominalDiameter ?? millimetres(priors.nominalDiameter.value)
  const area = crossSection(measured(diameter, priors.diameterOffset.u))
  return {
    tare: measured(tare.value, beside(tare.u, priors.carrierOfOneMake.u)),
    overfill: measured(
      priors.overfill.value,
      beside(priors.overfill.u, priors.overfillOfOneMake.u),
    ),
    density: densityPrior(make, priors),
    nominalArea: crossSection(measured(diameter)).value,
    areaSpread: beside(area.u / area.value, priors.reelAboutMake.u),
  }
}

const densityPrior = ({ material }: ShelfMake, priors: ShelfPriors): Measured => {
  if (material === undefined) return plain(priors.densityOfUnknownMaterial)
  const found = findMaterial(material)
  if (!found.ok) throw new DomainError('material_unknown', found.refusal.message)
  return plain(found.value.density ?? priors.densityOfFilledGrade)
}

/** What is believed of a printer before it is learnt: means over its prints. */
export interface PrinterPrior {
  readonly feedFactor: Measured
  /** mm */
  readonly startAllowance: Measured
}

/** Priors of a printer; what differs from print to print is taken out of the usual spread. */
export const printerPrior = (printer: ShelfPrinter, priors: ShelfPriors): PrinterPrior => ({
  feedFactor:
    printer.feedFactor ??
    measured(priors.feedFactor.value, beside(priors.feedFactor.u, priors.feedOfOneDraw.u)),
  startAllowance:
    printer.startAllowance ??
    measured(priors.startAllowance.value, beside(priors.startAllowance.u, priors.startOfOneDraw.u)),
})

const plain = ({ value, u }: Measured): Measured => measured(value, u)
