import { crossSection, findMaterial, type Material } from '../filament/index.ts'
import { DomainError, type Measured, measured, millimetres } from '../units/index.ts'
import { defaultPriors, type Prior, type Priors, tareOfKind, unknownTareOf } from './priors.ts'
import type { ShelfMake, ShelfPrinter } from './shelf-facts.ts'
import { type MakeWater, waterOfMake } from './shelf-water.ts'

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
  /** Water over dry mass at rest in room air: what takes up less is taken to hold none. */
  readonly leastWater: Prior
  /** Water at rest in the air of a room over that at 50 % humidity. */
  readonly roomAir: Prior
  /** Water at rest in a box with something that dries over that in room air. */
  readonly dryAir: Prior
  /** Water at rest in air of 50 % humidity over that at saturation in water. */
  readonly restOfSaturation: Prior
  /** Water over dry mass at rest of a hygroscopic material of which no figure is known. */
  readonly waterWithoutFigure: Prior
  /** Water of a reel when it is opened over that at rest in room air. */
  readonly waterWhenNew: Prior
  /** The same of a reel that had been in use. */
  readonly waterOfPartUsed: Prior
  /** The same of a reel that was dried and has cooled. */
  readonly waterAfterDrying: Prior
  /** Time constant of the water in a wound reel. */
  readonly waterTime: Prior
  /** Spread of a make's density over that in the materials table: a factor. */
  readonly densityOverTable: Prior
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
  leastWater: {
    value: 0.0005,
    u: 0,
    unit: '1',
    source: practice('half a gram in a kilogram: what a kitchen scale does not show'),
  },
  roomAir: {
    value: 1,
    u: 0.3,
    unit: '1',
    source: practice('rooms of 35 to 65 % humidity, uptake in proportion'),
  },
  dryAir: {
    value: 0.2,
    u: 0.15,
    unit: '1',
    source: practice('boxes with a desiccant hold 10 to 20 % humidity, some leak'),
  },
  restOfSaturation: {
    value: 0.36,
    u: 0.1,
    unit: '1',
    source: practice('mean and scatter of the materials of which the table has both figures'),
  },
  waterWithoutFigure: {
    value: 0.01,
    u: 0.01,
    unit: '1',
    source: practice('wide on purpose: from next to nothing to that of polyamide'),
  },
  waterWhenNew: {
    value: 0.15,
    u: 0.1,
    unit: '1',
    source: practice('packed in foil with a desiccant, cooled in a water bath before'),
  },
  waterOfPartUsed: {
    value: 0.7,
    u: 0.35,
    unit: '1',
    source: practice('anything from just dried to long in the room'),
  },
  waterAfterDrying: {
    value: 0.1,
    u: 0.1,
    unit: '1',
    source: practice('the inner turns of a winding dry last'),
  },
  waterTime: {
    value: 20,
    u: 0,
    unit: 'd',
    source: practice('a wound reel takes weeks in room air; held as exact'),
  },
  densityOverTable: {
    value: 1,
    u: 0,
    unit: '1',
    source: practice('makes differ as the sheets in the table do, until readings tell otherwise'),
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
  /** Absent where its material takes up too little to be reckoned with. */
  readonly water?: MakeWater
}

/** What is left of a spread when a part of it is carried elsewhere. */
const beside = (whole: number, part: number): number =>
  Math.sqrt(Math.max(0, whole ** 2 - part ** 2))

/**
 * Priors of a make. Its spread and that of a reel about it make together the spread that the
 * estimate of a single reel takes.
 *
 * @throws DomainError `material_unknown` where no density is given instead, `impossible_make`
 */
export const makePrior = (make: ShelfMake, priors: ShelfPriors): MakePrior => {
  const label = make.labelNet ?? 1000
  const tare =
    make.carrier === undefined
      ? unknownTareOf(priors, label)
      : tareOfKind(priors, make.carrier, label)
  const diameter = make.nominalDiameter ?? millimetres(priors.nominalDiameter.value)
  const area = crossSection(measured(diameter, priors.diameterOffset.u))
  const material = materialOf(make)
  const water = waterOfMake(make, material, priors)
  return {
    tare: measured(tare.value, beside(tare.u, priors.carrierOfOneMake.u)),
    overfill: measured(
      priors.overfill.value,
      beside(priors.overfill.u, priors.overfillOfOneMake.u),
    ),
    density: densityPrior(make, material, priors),
    nominalArea: crossSection(measured(diameter)).value,
    areaSpread: beside(area.u / area.value, priors.reelAboutMake.u),
    ...(water && { water }),
  }
}

/** Its entry in the table; a density of one's own needs none. */
const materialOf = ({ material, density }: ShelfMake): Material | undefined => {
  if (material === undefined) return undefined
  const found = findMaterial(material)
  if (found.ok) return found.value
  if (density) return undefined
  throw new DomainError('material_unknown', found.refusal.message)
}

const densityPrior = (
  { id, density }: ShelfMake,
  material: Material | undefined,
  priors: ShelfPriors,
): Measured => {
  if (density) {
    const { value, u } = density
    if (!(value > 0 && value < Infinity && u >= 0 && u < Infinity)) {
      throw new DomainError('impossible_make', `make ${id} can not have ${value} ± ${u} g/cm³`)
    }
    return measured(value, u > 0 ? u : value * priors.dataSheetOffset.u)
  }
  if (material === undefined) return plain(priors.densityOfUnknownMaterial)
  if (material.density === undefined) return plain(priors.densityOfFilledGrade)
  const { value, u } = material.density
  return measured(value, u * priors.densityOverTable.value)
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
