import { type Measured, measured } from '../units/index.ts'

/**
 * The net of a reel of which only is told that it is part-used: anything up to its label, L. The uniform has
 * no normal; this one, cut off below nothing as every net is, is a little below the uniform wherever what is
 * left decides: a share of 1, 5, 10, 20 % of L is left with less chance than 99, 95, 90, 80 %. Above L it has 8 %.
 *
 * @param label - net mass on the label, g, > 0
 */
export const anyPartOf = (label: number): Measured => measured(0.2 * label, 0.5 * label)
