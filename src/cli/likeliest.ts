import type { DrawAlternative } from '../verdict/index.ts'

/** The likeliest way to read a draw. @param draw - one alternative at least */
export const likeliest = (draw: readonly DrawAlternative[]): DrawAlternative =>
  draw.reduce((most, each) => (each.weight > most.weight ? each : most))
