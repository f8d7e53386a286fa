const span = ([low, high]: readonly [number, number]): string =>
  low === high ? String(low) : `${low} to ${high}`

/** Words of what befell a reel, told on its sheet or at the bench. */
export const befallWords = {
  where: 'Where it stands now',
  needsWhere: 'Tell where it stands now.',
  air: 'The air there',
  airs: { unsaid: 'not told', room: 'room air', dry: 'kept dry' },
  dryCare: 'Before you dry',
  pellets: (
    material: string,
    celsius: readonly [number, number],
    hours: readonly [number, number],
    source: string,
  ): string =>
    `Loose pellets of ${material} are dried at ${span(celsius)} °C for ${span(hours)} h: ${source}. The maker’s instructions for this filament come first; wound filament and its carrier stand less.`,
  driedAt: 'Temperature',
  mayBeLeft: 'As 45 °C. May be left out.',
  hours: 'Hours',
  trimLength: 'Length taken off',
  lengthHint: 'With as many figures as it was measured: 1000 mm, not 1 m.',
  trimMass: 'Or its mass',
  massHint: 'As 422 g or 14.9 oz.',
  needsOne: 'Tell either the length or the mass, one of the two.',
  emptiedMeans: 'What was left was taken off, unmeasured: it holds nothing any more.',
  retiredWhy: 'Why, if you like',
} as const
