import { type MassUnit, showReading } from './show-figure.ts'

/** What each prior is about, by its key; those of sizes and kinds by what stands before the point. */
const about: Readonly<Record<string, string>> = {
  unknownTare: 'Carrier that is not known, for a label of',
  carrierKinds: 'Carrier for 1 kg, made of',
  carrierOfOneMake: 'Carriers of one make differ by',
  overfill: 'Wound on over what the label says',
  openingWithoutLabel: 'Net when new, without a label',
  fed: 'Fed before the ledger began',
  diameterOffset: 'Mean diameter off the nominal',
  nominalDiameter: 'Nominal diameter where none is told',
  densityOfUnknownMaterial: 'Density of a material that is not known',
  densityOfFilledGrade: 'Density of a filled grade',
  dataSheetOffset: 'Filament off its data sheet, a share',
  metreAboutReel: 'One metre off the mean of its reel, a share',
  reelAboutMake: 'One reel’s linear density off its make, a share',
  packing: 'Share of the winding’s volume that is filament',
  feedFactor: 'Feed factor of a printer',
  startAllowance: 'Start allowance of a print',
  tail: 'Tail of a reel',
  overfillOfOneMake: 'One reel’s overfill off its make',
  densityOfOneMake: 'One reel’s density off its make, a share',
  feedOfOneDraw: 'One print’s feed off its printer, a share',
  startOfOneDraw: 'One print’s start allowance off its printer',
  leastWater: 'Water that counts as none, a share of the dry mass',
  roomAir: 'Water in room air over that at 50 % humidity',
  dryAir: 'Water in a dry box over that in room air',
  restOfSaturation: 'Water in room air over that when soaked',
  waterWithoutFigure: 'Water of a material without a figure, a share',
  waterWhenNew: 'Water of a new reel over that at rest in room air',
  waterOfPartUsed: 'Water of a part-used reel over that at rest in room air',
  waterAfterDrying: 'Water of a dried reel over that at rest in room air',
  waterTime: 'Time constant of the water in a wound reel',
  densityOverTable: 'A make’s density spread over that of the table, a factor',
  scaleOverStated: 'A scale’s spread over what is stated of it, a factor',
}

/** What a prior is about; of one that has no words yet, its key. */
const nameOfPrior = (key: string, unit: MassUnit): string => {
  const [part = '', which] = key.split('.')
  const words = about[part]
  if (words === undefined) return key
  if (which === undefined) return words
  return part === 'unknownTare'
    ? `${words} ${showReading(Number(which), unit)}`
    : `${words} ${which.replace('-', ' ')}`
}

/** Words of the priors sheet. */
export const priorWords = {
  lead: 'Where nothing was measured these stand in. Say what holds on your bench; the ledger learns the rest.',
  name: (key: string, unit: MassUnit): string => nameOfPrior(key, unit),
  usual: 'Usual',
  ofShelf: 'Of this shelf',
  reckonedAs: 'Reckoned with',
  find: 'Find by words',
  own: (name: string): string => `${name}: what holds here`,
  hint: (shown: string): string => `With its uncertainty, as ${shown}.`,
  malformed: (shown: string): string => `Write a number with its uncertainty, as ${shown}.`,
  set: 'Set',
  setOf: (name: string): string => `Set: ${name}`,
  takeBack: 'As usual again',
  takeBackOf: (name: string): string => `As usual again: ${name}`,
  keep: 'Keep',
  asUsual: 'as usual',
  timesAsWide: (factor: number): string => `${factor.toPrecision(2)} times as wide a spread`,
  sources: 'Source',
  kept: (name: string): string => `Kept: ${name}.`,
} as const
