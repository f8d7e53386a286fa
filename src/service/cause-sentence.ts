import { showId } from '../contract/index.ts'
import type { WeighingCause } from '../estimate/index.ts'
import { formatMass, grams, measured, roundDecimal } from '../units/index.ts'

interface Words {
  readonly amount: string
  readonly meant: string
  readonly reel: string
  readonly name: string
  readonly fact: string
}

const sentences: Readonly<Record<WeighingCause['code'], (words: Words) => string>> = {
  chance: () => 'nothing is wrong: a rare reading',
  other_reel: ({ reel, name }) =>
    `another reel was on the scale: ${reel} (${name}) fits; read its id`,
  ounces: ({ meant }) => `the display was in ounces: that is ${meant}; give the unit`,
  pounds: ({ meant }) => `the display was in pounds: that is ${meant}; give the unit`,
  kilograms: ({ meant }) => `the display was in kilograms: that is ${meant}; give the unit`,
  tare_subtracted: () =>
    'the carrier was taken off already: give what the scale shows with the carrier',
  tare_subtracted_twice: () => 'the carrier was taken off twice: give what the scale shows with it',
  print_not_recorded: ({ amount }) =>
    `a print was not recorded: about ${amount} are missing; record it, then weigh again`,
  print_recorded_twice: ({ amount, fact }) =>
    `a print was recorded twice, or not printed: the fact ${fact} took ${amount}; put it right, then weigh again`,
  adapter_left_on: ({ amount }) =>
    `something else stood on the scale: about ${amount} too much; take it off`,
  extra_not_there: ({ amount }) =>
    `what was told to be beside it, ${amount}, was not on the scale: tell the same reading again, with nothing beside it`,
  unusual_carrier: ({ amount }) =>
    `its carrier is of another kind than was guessed and weighs about ${amount}: accept, and weigh an empty one when you can`,
  anything_else: () =>
    'none of the usual slips: a figure misread or mistyped, or a reel that is not on this shelf',
}

/** No doubt finer than this can be told apart at a bench. */
const finest_g = 0.01

/** What may explain a weighing, and what to do then. @param nameOf - what a reel is called */
export const causeSentence = (
  { code, reel = '', fact, mass, reading }: WeighingCause,
  nameOf: (reel: string) => string,
): string =>
  sentences[code]({
    amount:
      mass === undefined ? '' : formatMass(measured(grams(mass.value), Math.max(mass.u, finest_g))),
    meant: reading === undefined ? '' : `${roundDecimal(reading, 0)} g`,
    reel,
    name: nameOf(reel),
    fact: fact === undefined ? '' : showId(fact),
  })
