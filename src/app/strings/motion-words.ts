/** Words about how a printer moves, and how it keeps to what is planned by that. */
export const motionWords = {
  about: 'How it moves',
  lead: 'Decides how long prints are planned to take. What is left empty is as its firmware has it.',
  paste: 'Or paste its answer to M503, or its configuration',
  takeOver: 'Take the values from it',
  taken: (count: number): string =>
    count === 1 ? '1 value is taken over.' : `${count} values are taken over.`,
  nothingThere: 'Nothing in it tells how a printer moves.',
  unless: (usual: string): string => `${usual} unless told.`,
  asFirmware: (rule: string): string => `as its firmware: ${rule}`,
  four: (count: number): string =>
    `Four values are needed, for X, Y, Z and the feeder, as 300 300 5 25; here ${count === 1 ? 'is 1' : `are ${count}`}.`,
  outOfBounds: (upTo: string, mayBeNothing: boolean): string =>
    mayBeNothing ? `Write a number from 0 to ${upTo}.` : `Write a number above 0, up to ${upTo}.`,
  fields: {
    max_feed_mm_per_s: 'Top speed of X, Y, Z, feeder, mm/s',
    max_accel_mm_per_s2: 'Top acceleration of X, Y, Z, feeder, mm/s²',
    print_accel_mm_per_s2: 'Acceleration printing, mm/s²',
    travel_accel_mm_per_s2: 'Acceleration travelling, mm/s²',
    retract_accel_mm_per_s2: 'Acceleration of the feeder alone, mm/s²',
    corner: 'Rule of corners',
    jerk_mm_per_s: 'Jerk of X, Y, Z, feeder, mm/s',
    junction_deviation_mm: 'Junction deviation, mm',
    square_corner_mm_per_s: 'Speed at a right angle, mm/s',
    minimum_cruise: 'Least share of a move that is cruised',
  },
  corners: {
    jerk: 'jerk',
    'junction-deviation': 'junction deviation',
    'square-corner': 'speed at a right angle',
  },
  pace: {
    moves: 'Takes over the plan',
    waits: 'Waits over the usual',
    preparation: 'Before each print',
  },
  ofTimed: (prints: number): string => (prints === 1 ? '1 print timed' : `${prints} prints timed`),
} as const
